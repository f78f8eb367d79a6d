// SPDX-License-Identifier: MIT
// Paints a drawing with SFML.
#include "painter.h"

#include "strokes.h"

#include "ebbline/canvas.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace ebbline::window {
namespace {

sf::Color colourOf(Ink ink, Paper paper) {
    const Colour colour = drawing::colourOf(ink, paper);
    return {static_cast<sf::Uint8>(colour.red),
            static_cast<sf::Uint8>(colour.green),
            static_cast<sf::Uint8>(colour.blue)};
}

void loadFont(sf::Font& font, bool bold) {
    const std::string file = drawing::fontFile(bold);
    if (!font.loadFromFile(file))
        throw std::runtime_error("cannot load the font " + file);
}

Box boxOf(const std::vector<Point>& points) {
    const auto [left, right] = std::ranges::minmax(points, {}, &Point::x);
    const auto [top, bottom] = std::ranges::minmax(points, {}, &Point::y);
    return {left.x, top.y, right.x - left.x, bottom.y - top.y};
}

void addQuad(std::vector<sf::Vertex>& vertices,
             const sf::FloatRect& place,
             const sf::IntRect& texture,
             sf::Color colour) {
    // A glyph that lies between pixels fades beyond its box.
    const float rim = 1;
    const sf::Vector2f corner(static_cast<float>(texture.left) - rim,
                              static_cast<float>(texture.top) - rim);
    const sf::Vector2f size(static_cast<float>(texture.width) + 2 * rim,
                            static_cast<float>(texture.height) + 2 * rim);
    const auto vertex = [&](float across, float down) {
        return sf::Vertex({place.left - rim + across * (place.width + 2 * rim),
                           place.top - rim + down * (place.height + 2 * rim)},
                          colour,
                          {corner.x + across * size.x, corner.y + down * size.y});
    };
    for (const auto& [across, down] :
         {std::pair{0.F, 0.F}, {1.F, 0.F}, {1.F, 1.F}, {0.F, 0.F}, {1.F, 1.F}, {0.F, 1.F}})
        vertices.push_back(vertex(across, down));
}

} // namespace

Painter::Painter() {
    loadFont(m_fonts[0], false);
    loadFont(m_fonts[1], true);
}

void Painter::paint(sf::RenderTarget& target, const Drawing& drawing, double scale) {
    m_paper = drawing.paper;
    m_scale = scale;
    for (const Group& group : drawing.groups)
        for (const auto& item : group.items)
            std::visit([&](const auto& what) { add(target, what); }, item);
    flush(target);
}

/// What covers a text that waits is painted after it.
void Painter::add(sf::RenderTarget& target, const Shape& shape) {
    if (shape.fill) {
        const Box box = boxOf(shape.points);
        if (std::ranges::any_of(m_texts, [&](const Box& text) { return text.overlaps(box); }))
            flush(target);
    }
    std::vector<Point> points = shape.points;
    for (Point& point : points)
        point = {point.x * m_scale, point.y * m_scale};
    if (shape.fill)
        fill(m_triangles, points, colourOf(*shape.fill, m_paper));
    if (!shape.edge || points.size() < 2)
        return;
    const double width = shape.width * m_scale;
    const sf::Color colour = colourOf(*shape.edge, m_paper);
    if (shape.dash.empty()) {
        stroke(m_triangles, points, shape.closed, width, colour);
        return;
    }
    std::vector<double> dash = shape.dash;
    for (double& length : dash)
        length *= m_scale;
    for (const std::vector<Point>& piece : dashed(points, shape.closed, dash))
        stroke(m_triangles, piece, false, width, colour);
}

/// By how much a letter stands nearer to the one before it, as a share of the size.
double Painter::kerning(char32_t before, char32_t letter, bool bold) {
    constexpr unsigned whole = 1000; // so large that rounding to pixels takes nothing away
    const auto [place, is_new] = m_kernings.try_emplace({before, letter, bold}, 0);
    if (is_new && before != 0)
        place->second = m_fonts[bold ? 1 : 0].getKerning(before, letter, whole) / whole;
    return place->second;
}

/// Glyphs are drawn for the next whole size, and shrunk or stretched to their own.
void Painter::add(sf::RenderTarget& /*target*/, const Label& label) {
    m_texts.push_back(label.box);
    const sf::Font& font = m_fonts[label.bold ? 1 : 0];
    const double size = label.size * m_scale;
    const auto drawn_size = static_cast<unsigned>(std::lround(size));
    const auto stretch = static_cast<float>(size / drawn_size);
    const auto baseline = std::round(static_cast<float>(label.baseline_y * m_scale));
    const sf::Color colour = colourOf(label.ink, m_paper);
    std::vector<sf::Vertex>& vertices = m_glyphs[{label.bold, drawn_size}];
    double x = label.box.x * m_scale;
    char32_t before = 0;
    for (const auto& [letter, advance] : drawing::lettersOf(label.text, size, label.bold)) {
        x += size * kerning(before, letter, label.bold);
        const sf::Glyph& glyph = font.getGlyph(letter, drawn_size, false);
        if (glyph.bounds.width > 0)
            addQuad(vertices,
                    {static_cast<float>(x) + glyph.bounds.left * stretch,
                     baseline + glyph.bounds.top * stretch,
                     glyph.bounds.width * stretch,
                     glyph.bounds.height * stretch},
                    glyph.textureRect,
                    colour);
        x += advance;
        before = letter;
    }
}

void Painter::flush(sf::RenderTarget& target) {
    target.draw(m_triangles.data(), m_triangles.size(), sf::Triangles);
    for (const auto& [key, vertices] : m_glyphs)
        target.draw(vertices.data(),
                    vertices.size(),
                    sf::Triangles,
                    sf::RenderStates(&m_fonts[key.first ? 1 : 0].getTexture(key.second)));
    m_triangles.clear();
    m_glyphs.clear();
    m_texts.clear();
}

} // namespace ebbline::window
