// SPDX-License-Identifier: MIT
// Where parts and cables come to lie on the plan.
#pragma once

#include "router.h"
#include "symbols.h"

#include "ebbline/network.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace ebbline::drawing {

/// What a run is on the plan.
enum class RunRole {
    Twin,   ///< both sides of the supply loop in one cable
    Plus,   ///< the plus side alone
    Return, ///< the minus side alone
    Other,  ///< feeds something else
    Signal, ///< of the thermostat's loop
};

/// A core on its own between its cable's end and a terminal that lies elsewhere.
struct Tail {
    std::size_t core = 0;
    bool at_from = true;
    std::vector<Point> line; ///< from the terminal on
};

/// One cable as drawn.
struct Trace {
    const Run* run = nullptr;
    RunRole role = RunRole::Other;
    double width = 0;        ///< tells the area
    std::vector<Point> line; ///< from its `from` end to its `to` end
    std::size_t plus_core = 0;
    int plus_side = -1; ///< of a twin: its plus core lies left (-1) or right (+1) of its way
    std::vector<Tail> tails;
};

/// From metres to pixels; y grows upwards in metres.
struct MetreScale {
    double per_m = 1;
    Point origin; ///< of the metres, in pixels
    [[nodiscard]] Point at(Position place) const {
        return {origin.x + place.x_m * per_m, origin.y - place.y_m * per_m};
    }
};

struct PlanLayout {
    std::vector<Symbol> symbols;
    std::vector<Trace> traces;
    std::optional<MetreScale> metres; ///< absent where nothing has a place of its own

    [[nodiscard]] const Symbol* findSymbol(const std::string& part) const;
};

[[nodiscard]] PlanLayout layOutPlan(const Network& network, const Box& area, double unit);

/// Whether a part belongs to the supply loop: where there is little room nothing else is drawn.
[[nodiscard]] bool isInLoop(const Network& network, const Part& part);
/// So little room that only the supply loop is drawn.
[[nodiscard]] bool isSmallPlan(const Box& area, double unit);

/// Symbols only: those with a place to scale, all others beside what they are connected to, none
/// over another. `extents` are the sizes of boxes in pixels where they differ from the usual.
void placeSymbols(PlanLayout& layout, const Network& network, const Box& area, double unit);

/// Gives every terminal its place on the side that faces what it is connected to.
void placePorts(PlanLayout& layout, const Installation& installation, double unit);

/// Draws the way of every run; turns a part over where a twin cable would reach its poles crossed.
void traceRuns(PlanLayout& layout, const Network& network, const Box& area, double unit);

[[nodiscard]] RunRole roleOf(const Network& network, const Run& run);

} // namespace ebbline::drawing
