// SPDX-License-Identifier: MIT
// The supply loop unrolled into columns of the gap chart.
#pragma once

#include "figures.h"

#include <string>
#include <vector>

namespace ebbline::drawing {

/// What stands above one stretch of the chart's foot.
struct Column {
    std::string id;    ///< of the run, joint or part; of several: of the first
    std::string name;  ///< for people
    std::string brief; ///< the same where there is little room
    PortionKind kind = PortionKind::Device;
    double length_m = 0; ///< of a cable; 0: narrow, of fixed width
    double out_v = 0;    ///< lost on the plus side
    double back_v = 0;   ///< lost on the minus side
    double avoidable_v = 0;
    bool thin = false;         ///< next to nothing is lost in it
    std::vector<int> elements; ///< of the network
    double x = 0;              ///< left edge, once laid out
    double width = 0;
    [[nodiscard]] double volts() const { return out_v + back_v; }
};

/// Both sides of the loop from battery to fridge.
struct Columns {
    bool shared = false; ///< out and back lie along the same columns, all of them in `out`
    std::vector<Column> out;
    std::vector<Column> back; ///< of the minus side where it has its own
};

/// The battery is the first column of `out`. Neighbours that are small and sound share one column,
/// which is decided at the telling moment, so that columns stay as they are while time goes on;
/// `figures` say what is lost in them.
[[nodiscard]] Columns findColumns(const Moment& moment, const Figures& figures);

/// Id of the column whose loss the verdict speaks of; empty without one.
[[nodiscard]] std::string findCulpritColumn(const Figures& figures);

/// Gives every column its place: cables by length, all else narrow.
void layOut(std::vector<Column>& columns, double left, double width, double narrow);

} // namespace ebbline::drawing
