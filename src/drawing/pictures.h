// SPDX-License-Identifier: MIT
// The three pictures as pieces of a page.
#pragma once

#include "figures.h"

#include "ebbline/canvas.h"
#include "ebbline/drawing.h"
#include "ebbline/places.h"

#include <span>

namespace ebbline::drawing {

/// Where a picture goes, and how large its common text is.
struct Site {
    Canvas& canvas;
    const Moment& moment;
    Box box;
    double unit = 13;  ///< size of common text, pixels; everything else follows from it
    bool bare = false; ///< as in View
    std::span<const MeterPlace> places = {}; ///< of a plan: numbered in this order
};

void drawPlan(const Site& site);
void drawGapChart(const Site& site);
void drawTimeChart(const Site& site);

/// The dashes that tell the first outline from the second in all three pictures.
[[nodiscard]] Pen outlinePen(Ink ink, double width, std::size_t which, double unit);

/// The ground and the thin edge of a picture; returns what is left inside its margin.
[[nodiscard]] Box drawSheet(const Site& site);

} // namespace ebbline::drawing
