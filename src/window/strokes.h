// SPDX-License-Identifier: MIT
// Shapes as triangles with soft edges, a pixel wide, since multisampling costs too much without a
// graphics card.
#pragma once

#include "ebbline/drawing.h"

#include <SFML/Graphics/Vertex.hpp>

#include <span>
#include <vector>

namespace ebbline::window {

using Triangles = std::vector<sf::Vertex>;

/// The inside of a polygon, which may be hollow or cross itself (nonzero rule, as in SVG).
void fill(Triangles& triangles, std::span<const Point> polygon, sf::Color colour);

/// A line of straight pieces with round joins and flat ends.
void stroke(Triangles& triangles,
            std::span<const Point> points,
            bool closed,
            double width,
            sf::Color colour);

/// The pieces of a line that a dash pattern leaves.
[[nodiscard]] std::vector<std::vector<Point>>
dashed(std::span<const Point> points, bool closed, std::span<const double> dash);

} // namespace ebbline::window
