// SPDX-License-Identifier: MIT
// Puts a drawing together and keeps account of what is taken.
#include "ebbline/canvas.h"

#include "font.h"
#include "geometry.h"

#include "ebbline/error.h"
#include "ebbline/text.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

constexpr double square = 40;     // side of the squares that what is taken is looked up by
constexpr double line_step = 1.3; // from baseline to baseline, as a share of the size

double blockHeight(std::span<const TextLine> lines) {
    double height = 0;
    for (std::size_t i = 0; i < lines.size(); ++i)
        height += lines[i].style.size * (i == 0 ? font_rise : line_step);
    return lines.empty() ? 0 : height + lines.back().style.size * font_fall;
}

} // namespace

Canvas::Canvas(const View& view) : m_columns(static_cast<std::size_t>(view.width / square) + 2) {
    m_drawing.width = view.width;
    m_drawing.height = view.height;
    m_drawing.paper = view.paper;
    m_buckets.resize(m_columns * (static_cast<std::size_t>(view.height / square) + 2));
}

void Canvas::begin(std::string role, std::string id, std::string meaning) {
    m_drawing.groups.push_back({std::move(role), std::move(id), std::move(meaning), {}});
}

void Canvas::describe(std::string title, std::string meaning) {
    m_drawing.title = std::move(title);
    m_drawing.meaning = std::move(meaning);
}

Canvas::Squares Canvas::squaresOf(const Box& box) const {
    const auto cell = [](double at, std::size_t cells) {
        return static_cast<std::size_t>(
            std::clamp(at / square, 0.0, static_cast<double>(cells - 1)));
    };
    const std::size_t rows = m_buckets.size() / m_columns;
    return {cell(box.x, m_columns),
            cell(box.right(), m_columns),
            cell(box.y, rows),
            cell(box.bottom(), rows)};
}

void Canvas::remember(std::span<const Point> points, bool closed, double width) {
    const std::size_t count = points.size() - (closed ? 0 : 1);
    for (std::size_t i = 0; i < count; ++i) {
        const Piece piece{points[i], points[(i + 1) % points.size()], width / 2};
        const auto [left, right] = std::minmax(piece.from.x, piece.to.x);
        const auto [top, bottom] = std::minmax(piece.from.y, piece.to.y);
        const Squares squares = squaresOf(Box{left, top, right - left, bottom - top}.grown(width));
        for (std::size_t row = squares.top; row <= squares.bottom; ++row)
            for (std::size_t column = squares.left; column <= squares.right; ++column)
                m_buckets[row * m_columns + column].pieces.push_back(m_pieces.size());
        m_pieces.push_back(piece);
    }
}

void Canvas::reserve(const Box& box) {
    const Squares squares = squaresOf(box);
    for (std::size_t row = squares.top; row <= squares.bottom; ++row)
        for (std::size_t column = squares.left; column <= squares.right; ++column)
            m_buckets[row * m_columns + column].texts.push_back(m_texts.size());
    m_texts.push_back(box);
}

void Canvas::line(std::vector<Point> points, const Pen& pen) {
    if (points.size() < 2)
        return;
    remember(points, false, pen.width);
    m_drawing.groups.back().items.emplace_back(
        Shape{std::move(points), false, std::nullopt, pen.ink, pen.width, pen.dash});
}

void Canvas::polygon(std::vector<Point> points,
                     std::optional<Ink> fill,
                     const std::optional<Pen>& pen) {
    if (points.size() < 3)
        return;
    remember(points, true, pen ? pen->width : 0);
    Shape shape{std::move(points), true, fill, std::nullopt, 0, {}};
    if (pen) {
        shape.edge = pen->ink;
        shape.width = pen->width;
        shape.dash = pen->dash;
    }
    m_drawing.groups.back().items.emplace_back(std::move(shape));
}

void Canvas::hatch(std::span<const Point> polygon, Ink ink, double spacing, double width) {
    for (const auto& [from, to] : hatchLines(polygon, spacing))
        line({from, to}, {ink, width, {}});
}

void Canvas::ground(const Box& box, Ink fill) {
    m_drawing.groups.back().items.emplace_back(Shape{rectangle(box), true, fill, {}, 0, {}});
}

void Canvas::write(const TextLine& line, Point left) {
    const Style& style = line.style;
    const std::string text = text::escapeControls(line.text);
    const Box box{left.x,
                  left.y - font_rise * style.size,
                  textWidth(text, style.size, style.bold),
                  (font_rise + font_fall) * style.size};
    reserve(box);
    m_drawing.groups.back().items.emplace_back(
        Label{text, box, left.y, style.size, style.bold, style.ink});
}

void Canvas::write(
    const TextLine& line, double left, double width, double baseline_y, Align align) {
    const double used = textWidth(line.text, line.style.size, line.style.bold);
    const double share = align == Align::Left ? 0 : align == Align::Middle ? 0.5 : 1;
    write(line, {left + share * (width - used), baseline_y});
}

void Canvas::write(std::span<const TextLine> lines, const Box& box, Align align) {
    double baseline_y = box.y;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        baseline_y += lines[i].style.size * (i == 0 ? font_rise : line_step);
        write(lines[i], box.x, box.width, baseline_y, align);
    }
}

bool Canvas::isFree(const Box& box) const {
    const Squares squares = squaresOf(box);
    for (std::size_t row = squares.top; row <= squares.bottom; ++row)
        for (std::size_t column = squares.left; column <= squares.right; ++column)
            if (!isFree(box, m_buckets[row * m_columns + column]))
                return false;
    return true;
}

bool Canvas::isFree(const Box& box, const Bucket& bucket) const {
    return std::ranges::none_of(bucket.texts,
                                [&](std::size_t text) { return m_texts[text].overlaps(box); }) &&
           std::ranges::none_of(bucket.pieces, [&](std::size_t index) {
               const Piece& piece = m_pieces[index];
               return touches(piece.from, piece.to, piece.half_width, box);
           });
}

bool Canvas::crosses(Point from, Point to, const Box& thing) const {
    const auto in_way = [&](const Box& box) { return touches(from, to, 1, box); };
    return std::ranges::any_of(m_texts, in_way) ||
           std::ranges::any_of(m_protected, [&](const Box& box) {
               return !box.overlaps(thing.grown(1)) && in_way(box.grown(4));
           });
}

Box sizeOf(std::span<const TextLine> lines) {
    Box box{.height = blockHeight(lines)};
    for (const TextLine& line : lines)
        box.width =
            std::max(box.width,
                     textWidth(text::escapeControls(line.text), line.style.size, line.style.bold));
    return box;
}

std::vector<TextLine> wrapped(const std::string& text, const Style& style, double most_width) {
    std::vector<TextLine> lines;
    std::string line;
    std::string word;
    const auto fits = [&](const std::string& part) {
        return textWidth(part, style.size, style.bold) <= most_width;
    };
    const auto flush = [&] {
        if (!line.empty())
            lines.push_back({line, style});
        line.clear();
    };
    const auto take = [&] {
        if (word.empty())
            return;
        if (!line.empty() && !fits(line + " " + word))
            flush();
        line += (line.empty() ? "" : " ") + word;
        if (!fits(line))
            line = shortened(line, style.size, style.bold, most_width);
        word.clear();
    };
    for (const char character : text::escapeControls(text))
        if (character == ' ')
            take();
        else
            word += character;
    take();
    flush();
    return lines;
}

} // namespace ebbline::drawing
