// SPDX-License-Identifier: MIT
// A drawing as SVG 1.1: numbers without a locale, every text escaped, nothing but the drawing.
#include "font.h"

#include "ebbline/drawing.h"

#include <fmt/core.h>

#include <cmath>
#include <iterator>

namespace ebbline::drawing {
namespace {

/// At most two decimals, none that say nothing.
std::string shortNumber(double value) {
    const double rounded = std::round(value * 100) / 100;
    return fmt::format("{}", rounded == 0 ? 0.0 : rounded);
}

/// For text and attributes; what XML cannot hold at all becomes a replacement character.
std::string escaped(const std::string& text) {
    std::string out;
    for (const char32_t character : codePoints(text))
        switch (character) {
        case U'&':
            out += "&amp;";
            break;
        case U'<':
            out += "&lt;";
            break;
        case U'>':
            out += "&gt;";
            break;
        case U'"':
            out += "&quot;";
            break;
        default: {
            const bool is_control = character < 0x20 && character != '\t' && character != '\n';
            const bool is_hole = character == 0xFFFE || character == 0xFFFF ||
                                 (character >= 0xD800 && character < 0xE000);
            out += utf8Of(std::u32string(1, is_control || is_hole ? 0xFFFD : character));
        }
        }
    return out;
}

class Painter {
public:
    explicit Painter(const Drawing& drawing) : m_drawing(drawing) {}

    [[nodiscard]] std::string paint() {
        add("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" "
            "viewBox=\"0 0 {0} {1}\" role=\"img\" font-family=\"{2}, DejaVu Sans, sans-serif\">\n",
            shortNumber(m_drawing.width),
            shortNumber(m_drawing.height),
            font_family);
        add("<title>{}</title>\n", escaped(m_drawing.title));
        add("<desc>{}</desc>\n", escaped(m_drawing.meaning));
        for (const Group& group : m_drawing.groups)
            paint(group);
        return std::move(m_out) + "</svg>\n";
    }

private:
    template <class... Arguments>
    void add(fmt::format_string<Arguments...> format, Arguments&&... arguments) {
        fmt::format_to(std::back_inserter(m_out), format, std::forward<Arguments>(arguments)...);
    }

    [[nodiscard]] std::string colour(std::optional<Ink> ink) const {
        if (!ink)
            return "none";
        const Colour value = colourOf(*ink, m_drawing.paper);
        return fmt::format("#{:02x}{:02x}{:02x}", value.red, value.green, value.blue);
    }

    void paint(const Group& group) {
        if (group.items.empty())
            return;
        add("<g class=\"{}\"", escaped(group.role));
        if (!group.id.empty())
            add(" data-id=\"{}\"", escaped(group.id));
        add(">\n");
        if (!group.meaning.empty())
            add("<title>{}</title>\n", escaped(group.meaning));
        for (const auto& item : group.items)
            std::visit([this](const auto& what) { paint(what); }, item);
        add("</g>\n");
    }

    void paint(const Shape& shape) {
        add("<{} points=\"", shape.closed ? "polygon" : "polyline");
        for (std::size_t i = 0; i < shape.points.size(); ++i)
            add("{}{},{}",
                i > 0 ? " " : "",
                shortNumber(shape.points[i].x),
                shortNumber(shape.points[i].y));
        add("\" fill=\"{}\"", colour(shape.fill));
        if (shape.edge) {
            add(" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
                colour(shape.edge),
                shortNumber(shape.width));
            for (std::size_t i = 0; i < shape.dash.size(); ++i)
                add("{}{}", i == 0 ? " stroke-dasharray=\"" : " ", shortNumber(shape.dash[i]));
            add("{}", shape.dash.empty() ? "" : "\"");
        }
        add("/>\n");
    }

    // The stated length keeps a text in its place where the reader's font is another one.
    void paint(const Label& label) {
        add("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{} fill=\"{}\" textLength=\"{}\" "
            "lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
            shortNumber(label.box.x),
            shortNumber(label.baseline_y),
            shortNumber(label.size),
            label.bold ? " font-weight=\"bold\"" : "",
            colour(label.ink),
            shortNumber(label.box.width),
            escaped(label.text));
    }

    const Drawing& m_drawing;
    std::string m_out;
};

} // namespace

std::string writeSvg(const Drawing& drawing) {
    return Painter(drawing).paint();
}

} // namespace ebbline::drawing
