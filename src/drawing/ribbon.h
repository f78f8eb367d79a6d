// SPDX-License-Identifier: MIT
// Cables as ribbons: width tells the area, the filled part what is left.
#pragma once

#include "plan_layout.h"
#include "potentials.h"

#include "ebbline/canvas.h"

namespace ebbline::drawing {

/// `hatched` is set to the part where nothing is left, if there is one.
void drawRibbon(Canvas& canvas,
                const Trace& trace,
                const std::optional<Fill>& fill,
                double unit,
                std::vector<Point>& hatched);

/// How far a cable is filled in another start or at another moment: two thin lines within it, which
/// meet where nothing is left.
void drawFillOutline(Canvas& canvas,
                     const Trace& trace,
                     const Fill& fill,
                     const Fill& now,
                     std::size_t which,
                     double unit);

} // namespace ebbline::drawing
