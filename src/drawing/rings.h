// SPDX-License-Identifier: MIT
// Finds places for numbers in rings, each with a line to what it counts.
#pragma once

#include "ebbline/canvas.h"

#include <optional>
#include <span>
#include <vector>

namespace ebbline::drawing {

/// What a number points at.
struct RingTarget {
    Box about;                    ///< a point or the box of a part
    Point wish;                   ///< in which direction its number is best
    double room = 0;              ///< along the thing: what has least is placed first
    std::vector<Point> also = {}; ///< other points of the thing, the best first
};

struct Ring {
    Point from; ///< where on the thing its line comes from
    Point middle;
};

inline constexpr double ring_radius = 0.95; // units
inline constexpr double ring_dot = 0.2;     // radius of the dot on what is no part, units

/// A ring for each target, free of what the canvas holds and of each other; where there is room
/// for it no line crosses another or passes close to the dot of another. Nothing where none fits.
[[nodiscard]] std::vector<std::optional<Ring>> placeRings(const Canvas& canvas,
                                                          std::span<const RingTarget> targets,
                                                          const Box& within,
                                                          double unit);

} // namespace ebbline::drawing
