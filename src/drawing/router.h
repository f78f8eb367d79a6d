// SPDX-License-Identifier: MIT
// Finds upright ways for cables between symbols: around parts, beside other cables, few bends.
#pragma once

#include "geometry.h"
#include "symbols.h"

#include <span>
#include <vector>

namespace ebbline::drawing {

/// One end of a way: where it begins and the side it leaves by. (0, 0): any side.
struct WayEnd {
    Point at;
    Point out;
    double clear = 0; ///< straight stretch before the first bend
};

class Router {
public:
    /// `cell` is the raster that bends keep to.
    Router(const Box& area, double cell);

    /// No way leads through a box; one beside it costs a little more.
    void block(const Box& box, double halo);
    /// Ways beside or across this one cost more from now on.
    void occupy(std::span<const Point> line, double half_width);

    /// The cheapest way between the ends; a straight line where there is none.
    [[nodiscard]] std::vector<Point> find(const WayEnd& from, const WayEnd& to) const;

private:
    [[nodiscard]] int column(double x) const;
    [[nodiscard]] int row(double y) const;
    [[nodiscard]] Point middle(int cell) const;
    [[nodiscard]] int cellAt(Point point) const;
    [[nodiscard]] std::vector<int> findCells(int from, int first_side, int to, int last_side) const;

    Box m_area;
    double m_cell;
    int m_columns;
    int m_rows;
    std::vector<bool> m_blocked;
    std::vector<float> m_price; ///< of entering a cell, beyond its length
};

} // namespace ebbline::drawing
