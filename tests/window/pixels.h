// SPDX-License-Identifier: MIT
// Two paintings of one picture, compared as an eye does that stands a little back.
#pragma once

#include "ebbline/drawing.h"

#include <SFML/Graphics/Image.hpp>

#include <cstddef>
#include <vector>

namespace ebbline::pixels {

/// Three channels of 0 to 255 a pixel, row by row; what is clear counts as black.
struct Pixels {
    std::size_t width = 0;
    std::size_t height = 0;
    std::vector<float> channels;
};
[[nodiscard]] Pixels pixelsOf(const sf::Image& image);

/// By a Gaussian whose standard deviation is 2 pixels. The picture's rim goes on beyond it.
[[nodiscard]] Pixels blurred(const Pixels& sharp);

/// Which pixels of two pictures differ.
class Difference {
public:
    /// A pixel differs where one of its channels is off by more than 16 of 255 in the blurred
    /// pictures. Throws std::invalid_argument where the sizes differ.
    Difference(const Pixels& blurred, const Pixels& other);

    /// As a share of all pixels.
    [[nodiscard]] double share() const;
    /// As a share of those that the box covers at least half.
    [[nodiscard]] double shareIn(const Box& box) const;

private:
    std::size_t m_width;
    std::size_t m_height;
    std::vector<char> m_differs;
};

} // namespace ebbline::pixels
