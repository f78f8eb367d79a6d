// SPDX-License-Identifier: MIT
// Paints a drawing with SFML.
#include "painter.h"

#include "strokes.h"

#include <SFML/System/String.hpp>

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

/// Glyphs are as large as whole pixels allow; between them a text is stretched to its own width.
void Painter::add(sf::RenderTarget& /*target*/, const Label& label) {
    m_texts.push_back(label.box);
    const sf::Font& font = m_fonts[label.bold ? 1 : 0];
    const auto size = static_cast<unsigned>(std::lround(label.size * m_scale));
    const sf::String text = sf::String::fromUtf8(label.text.begin(), label.text.end());
    float natural = 0;
    for (const sf::Uint32 letter : text)
        natural += font.getGlyph(letter, size, false).advance;
    const auto wanted = static_cast<float>(label.box.width * m_scale);
    const float stretch = natural > 0 ? wanted / natural : 1;
    const auto baseline = std::round(static_cast<float>(label.baseline_y * m_scale));
    auto x = static_cast<float>(label.box.x * m_scale);
    const sf::Color colour = colourOf(label.ink, m_paper);
    auto& vertices = m_glyphs[{label.bold, size}];
    for (const sf::Uint32 letter : text) {
        const sf::Glyph& glyph = font.getGlyph(letter, size, false);
        if (glyph.bounds.width > 0)
            addQuad(vertices,
                    {x + glyph.bounds.left,
                     baseline + glyph.bounds.top,
                     glyph.bounds.width,
                     glyph.bounds.height},
                    glyph.textureRect,
                    colour);
        x += glyph.advance * stretch;
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
