// SPDX-License-Identifier: MIT
// Paints a drawing with SFML: soft-edged shapes in one array, texts in one array a font size.
#pragma once

#include "ebbline/drawing.h"

#include <SFML/Graphics.hpp>

#include <array>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

namespace ebbline::window {

class Painter {
public:
    /// Loads the fonts that texts were measured with. Throws std::runtime_error where one is not
    /// there.
    Painter();

    /// Every length of the drawing becomes `scale` pixels of the target.
    void paint(sf::RenderTarget& target, const Drawing& drawing, double scale);

private:
    void add(sf::RenderTarget& target, const Shape& shape);
    void add(sf::RenderTarget& target, const Label& label);
    double kerning(char32_t before, char32_t letter, bool bold);
    void flush(sf::RenderTarget& target);

    std::array<sf::Font, 2> m_fonts; ///< plain and bold
    Paper m_paper = Paper::Light;
    double m_scale = 1;
    std::vector<sf::Vertex> m_triangles;
    std::map<std::pair<bool, unsigned>, std::vector<sf::Vertex>> m_glyphs; ///< by font and size
    std::map<std::tuple<char32_t, char32_t, bool>, double> m_kernings;     ///< looked up so far
    std::vector<Box> m_texts; ///< that wait to be painted, in the drawing's pixels
};

} // namespace ebbline::window
