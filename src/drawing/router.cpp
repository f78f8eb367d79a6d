// SPDX-License-Identifier: MIT
// Dijkstra's way over a raster of cells and directions.
#include "router.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <queue>
#include <tuple>

namespace ebbline::drawing {
namespace {

constexpr float bend_price = 6;
constexpr float beside_symbol_price = 2;
constexpr float beside_cable_price = 4;
constexpr std::array sides{to_right, downwards, to_left, upwards};
constexpr int any_side = -1;

int sideOf(Point out) {
    for (int i = 0; i < 4; ++i)
        if (sides[static_cast<std::size_t>(i)] == out)
            return i;
    return any_side;
}

/// An upright way with one step, for ends too close to each other for a search.
std::vector<Point> bent(const WayEnd& from, const WayEnd& to) {
    const Point half = between(from.at, to.at, 0.5);
    if (from.out.y != 0)
        return simplified(
            std::vector<Point>{from.at, {from.at.x, half.y}, {to.at.x, half.y}, to.at});
    return simplified(std::vector<Point>{from.at, {half.x, from.at.y}, {half.x, to.at.y}, to.at});
}

/// Moves the first stretch of a way in line with its end; of a way that is all one stretch only
/// the first half, so that a step remains in its middle.
void alignBeginning(std::vector<Point>& line, const WayEnd& end) {
    const bool upright = end.out.y != 0 || (end.out.x == 0 && line.size() > 1 &&
                                            std::abs(line[1].y - line[0].y) > 1e-6);
    const auto across = [&](Point& point) -> double& { return upright ? point.x : point.y; };
    const double lane = across(line.front());
    std::size_t count = 0;
    while (count < line.size() && std::abs(across(line[count]) - lane) < 1e-6)
        ++count;
    if (count == line.size())
        count = (count + 1) / 2;
    for (std::size_t i = 0; i < count; ++i)
        across(line[i]) = upright ? end.at.x : end.at.y;
}

/// Slanting stretches replaced by upright ones with a step half way.
std::vector<Point> squared(const std::vector<Point>& line, bool level_first) {
    std::vector<Point> result{line.front()};
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Point one = line[i - 1];
        const Point other = line[i];
        if (std::abs(one.x - other.x) > 1e-6 && std::abs(one.y - other.y) > 1e-6) {
            const Point half = between(one, other, 0.5);
            if (level_first) {
                result.push_back({half.x, one.y});
                result.push_back({half.x, other.y});
            } else {
                result.push_back({one.x, half.y});
                result.push_back({other.x, half.y});
            }
        }
        result.push_back(other);
    }
    return result;
}

} // namespace

Router::Router(const Box& area, double cell)
    : m_area(area), m_cell(cell), m_columns(std::max(2, static_cast<int>(area.width / cell))),
      m_rows(std::max(2, static_cast<int>(area.height / cell))) {
    const auto count = static_cast<std::size_t>(m_columns) * static_cast<std::size_t>(m_rows);
    m_blocked.assign(count, false);
    m_price.assign(count, 0);
}

int Router::column(double x) const {
    return std::clamp(static_cast<int>((x - m_area.x) / m_cell), 0, m_columns - 1);
}
int Router::row(double y) const {
    return std::clamp(static_cast<int>((y - m_area.y) / m_cell), 0, m_rows - 1);
}
int Router::cellAt(Point point) const {
    return row(point.y) * m_columns + column(point.x);
}
Point Router::middle(int cell) const {
    const int row = cell / m_columns;
    const int column = cell % m_columns;
    return {m_area.x + (column + 0.5) * m_cell, m_area.y + (row + 0.5) * m_cell};
}

void Router::block(const Box& box, double halo) {
    for (int cell = 0; cell < m_columns * m_rows; ++cell) {
        const Point point = middle(cell);
        const Box spot{point.x, point.y, 0, 0};
        const auto index = static_cast<std::size_t>(cell);
        if (box.contains(spot))
            m_blocked[index] = true;
        else if (box.grown(halo).contains(spot))
            m_price[index] += beside_symbol_price;
    }
}

void Router::occupy(std::span<const Point> line, double half_width) {
    for (int cell = 0; cell < m_columns * m_rows; ++cell) {
        const Point point = middle(cell);
        const Box spot = Box{point.x, point.y, 0, 0}.grown(m_cell);
        for (std::size_t i = 1; i < line.size(); ++i)
            if (touches(line[i - 1], line[i], half_width, spot)) {
                m_price[static_cast<std::size_t>(cell)] += beside_cable_price;
                break;
            }
    }
}

std::vector<int> Router::findCells(int from, int first_side, int to, int last_side) const {
    // A state is a cell and the direction it was entered in.
    const auto states = 4 * m_price.size();
    std::vector<float> price(states, std::numeric_limits<float>::infinity());
    std::vector<int> before(states, -1);
    using Entry = std::pair<float, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    for (int side = 0; side < 4; ++side)
        if (first_side == any_side || side == first_side) {
            const int state = from * 4 + side;
            price[static_cast<std::size_t>(state)] = 0;
            open.emplace(0.0F, state);
        }
    while (!open.empty()) {
        const auto [cost, state] = open.top();
        open.pop();
        if (cost > price[static_cast<std::size_t>(state)])
            continue;
        const int cell = state / 4;
        const int heading = state % 4;
        if (cell == to && (last_side == any_side || heading == (last_side + 2) % 4)) {
            std::vector<int> cells;
            for (int at = state; at >= 0; at = before[static_cast<std::size_t>(at)])
                cells.push_back(at / 4);
            std::ranges::reverse(cells);
            return cells;
        }
        for (int side = 0; side < 4; ++side) {
            if (side == (heading + 2) % 4)
                continue;
            const Point step = sides[static_cast<std::size_t>(side)];
            const int x = cell % m_columns + static_cast<int>(step.x);
            const int y = cell / m_columns + static_cast<int>(step.y);
            if (x < 0 || y < 0 || x >= m_columns || y >= m_rows)
                continue;
            const int next = y * m_columns + x;
            const auto index = static_cast<std::size_t>(next);
            if (m_blocked[index] && next != to)
                continue;
            const float sum = cost + 1 + m_price[index] + (side == heading ? 0 : bend_price);
            const int entered = next * 4 + side;
            const auto place = static_cast<std::size_t>(entered);
            if (sum < price[place]) {
                price[place] = sum;
                before[place] = state;
                open.emplace(sum, entered);
            }
        }
    }
    return {};
}

std::vector<Point> Router::find(const WayEnd& from, const WayEnd& to) const {
    // The search begins outside of the symbol's own blocked ground.
    const auto outside = [&](const WayEnd& end) {
        Point point{end.at.x + end.out.x * end.clear, end.at.y + end.out.y * end.clear};
        for (int i = 0; i < 12 && m_blocked[static_cast<std::size_t>(cellAt(point))]; ++i)
            point = {point.x + end.out.x * m_cell, point.y + end.out.y * m_cell};
        return point;
    };
    const std::vector<int> cells =
        findCells(cellAt(outside(from)), sideOf(from.out), cellAt(outside(to)), sideOf(to.out));
    if (cells.empty())
        return bent(from, to);
    std::vector<Point> line;
    line.reserve(cells.size() + 2);
    for (const int cell : cells)
        line.push_back(middle(cell));
    if (line.size() < 2)
        line.push_back(line.back());
    alignBeginning(line, from);
    std::ranges::reverse(line);
    alignBeginning(line, to);
    line.insert(line.begin(), to.at);
    std::ranges::reverse(line);
    line.insert(line.begin(), from.at);
    return withoutReturns(squared(line, from.out.y == 0));
}

} // namespace ebbline::drawing
