// SPDX-License-Identifier: MIT
// Finds a free place for a block of text near the thing it speaks of.
#pragma once

#include "ebbline/canvas.h"

#include <optional>
#include <span>

namespace ebbline::drawing {

/// What is to be placed, and where it may go.
struct Wish {
    std::vector<TextLine> lines;
    Box about;        ///< the thing itself; text goes beside it
    Box within;       ///< stays inside
    double gap = 4;   ///< to everything else
    double reach = 0; ///< how far away it may go; beyond a little, a thin line leads there
    /// Directions in order of liking: (0, -1) above, (1, 0) to the right, ...
    std::vector<Point> sides = {{1, 0}, {0, -1}, {0, 1}, {-1, 0}};
};

/// Writes the block at the first free place and returns its box; nothing where there is none.
std::optional<Box> place(Canvas& canvas, const Wish& wish);

/// The same for the first of several wordings, longest first, that finds a place.
std::optional<Box>
placeFirst(Canvas& canvas, Wish wish, std::span<const std::vector<TextLine>> wordings);

} // namespace ebbline::drawing
