// SPDX-License-Identifier: MIT
// How large a metre is on the plan.
#include "plan_metres.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

constexpr double largest_per_m = 26; // units; a bench of one metre need not fill the sheet

} // namespace

std::optional<MetreScale>
findScale(const Installation& installation, const Box& area, double unit) {
    Reach reach;
    int placed = 0;
    for (const Part& part : installation.parts)
        if (part.at_m && hasSymbol(part)) {
            reach.include(*part.at_m);
            ++placed;
        }
    if (placed < 2)
        return std::nullopt;
    for (const Run& run : installation.runs)
        for (const Position place : run.route_m)
            reach.include(place);
    Box room = area;
    room.x += 4.2 * unit;
    room.width -= 8.4 * unit;
    room.y += 3.4 * unit;
    room.height -= 6.8 * unit;
    const Reach inner = reach;
    for (const Position place : installation.plan.outline_m)
        reach.include(place);
    // An outline may come closer to the edge than a symbol may.
    if (inner.left > reach.left || inner.right < reach.right)
        room = {area.x + unit, room.y, area.width - 2 * unit, room.height};
    if (inner.low > reach.low || inner.high < reach.high)
        room = {room.x, area.y + unit, room.width, area.height - 2 * unit};
    const double width_m = std::max(reach.right - reach.left, 0.1);
    const double height_m = std::max(reach.high - reach.low, 0.1);
    const double per_m =
        std::min({room.width / width_m, room.height / height_m, largest_per_m * unit});
    const Point middle = room.middle();
    return MetreScale{per_m,
                      {middle.x - per_m * (reach.left + reach.right) / 2,
                       middle.y + per_m * (reach.low + reach.high) / 2}};
}

} // namespace ebbline::drawing
