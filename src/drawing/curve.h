// SPDX-License-Identifier: MIT
// Sampled curves as lines in pixels.
#pragma once

#include "scale.h"

#include "ebbline/drawing.h"

#include <span>
#include <vector>

namespace ebbline::drawing {

/// The samples inside the scale across, of every pixel's width the first, least, greatest and last.
[[nodiscard]] std::vector<Point> thinned(std::span<const double> time_s,
                                         std::span<const double> values,
                                         const Scale& across,
                                         const Scale& up);

/// The pieces of a line between two heights on the page: what leaves a chart is not drawn along its
/// edge, where it would look like a value.
[[nodiscard]] std::vector<std::vector<Point>>
clipped(std::span<const Point> line, double top, double bottom);

} // namespace ebbline::drawing
