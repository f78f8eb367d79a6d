// SPDX-License-Identifier: MIT
// Points, lines and polygons: distances, crossings, parallels, hatch.
#pragma once

#include "ebbline/canvas.h"

#include <span>
#include <utility>
#include <vector>

namespace ebbline::drawing {

[[nodiscard]] double distance(Point one, Point other);
/// The point at `share` of the way from one to the other.
[[nodiscard]] Point between(Point one, Point other, double share);

/// Whether a straight piece, `half_width` thick to each side, touches a box.
[[nodiscard]] bool touches(Point from, Point to, double half_width, const Box& box);

[[nodiscard]] double lengthOf(std::span<const Point> line);
/// The piece of a line from one length along it to another.
[[nodiscard]] std::vector<Point> pieceOf(std::span<const Point> line, double from, double to);
/// The line moved sideways, to the right of its direction on the page where positive; corners
/// mitred. `first` and `last` are the distances at its two ends.
[[nodiscard]] std::vector<Point> parallel(std::span<const Point> line, double first, double last);
/// The band between two parallels at half the width to each side; the width may change from end to
/// end.
[[nodiscard]] std::vector<Point> band(std::span<const Point> line, double first, double last);
/// The line without points that lie on a straight way or on one another.
[[nodiscard]] std::vector<Point> simplified(std::span<const Point> line);

/// The same, and where the line turns straight back on itself it is cut short.
[[nodiscard]] std::vector<Point> withoutReturns(std::span<const Point> line);

/// Slanting lines inside a polygon, `spacing` apart.
[[nodiscard]] std::vector<std::pair<Point, Point>> hatchLines(std::span<const Point> polygon,
                                                              double spacing);

} // namespace ebbline::drawing
