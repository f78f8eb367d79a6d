// SPDX-License-Identifier: MIT
// Puts a drawing together and keeps account of what is taken, so that no text comes to lie over a
// line or over another text.
#pragma once

#include "ebbline/drawing.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ebbline::drawing {

/// How a text is set.
struct Style {
    double size = 12;
    bool bold = false;
    Ink ink = Ink::Line;
};

/// One line of a block of text.
struct TextLine {
    std::string text;
    Style style;
};

/// Where the lines of a block stand in it.
enum class Align { Left, Middle, Right };

/// How an edge is drawn.
struct Pen {
    Ink ink = Ink::Line;
    double width = 1;
    std::vector<double> dash;
};

class Canvas {
public:
    explicit Canvas(const View& view);

    [[nodiscard]] Box area() const { return {0, 0, m_drawing.width, m_drawing.height}; }
    /// What is drawn from now on belongs to this group.
    void begin(std::string role, std::string id = "", std::string meaning = "");

    void line(std::vector<Point> points, const Pen& pen);
    void polygon(std::vector<Point> points, std::optional<Ink> fill, const std::optional<Pen>& pen);
    /// Slanting lines all over a polygon.
    void hatch(std::span<const Point> polygon, Ink ink, double spacing, double width);
    /// A ground that text may stand across the edge of: that of the page itself.
    void ground(const Box& box, Ink fill);

    /// One line of text with its baseline's left end there; for places known to be free.
    void write(const TextLine& line, Point left);
    /// The same inside a column: at its left, middle or right.
    void write(const TextLine& line, double left, double width, double baseline_y, Align align);
    /// A block in a box of its size.
    void write(std::span<const TextLine> lines, const Box& box, Align align);

    /// Whether nothing drawn or written so far touches the box.
    [[nodiscard]] bool isFree(const Box& box) const;
    /// No line from a text to its thing may lead across a box.
    void protect(const Box& box) { m_protected.push_back(box); }
    /// Whether a straight line from a thing would cross a text or another protected box.
    [[nodiscard]] bool crosses(Point from, Point to, const Box& thing) const;
    /// Keeps text out of a box from now on.
    void reserve(const Box& box);

    void timeAxis(const TimeAxis& axis) { m_drawing.time_axes.push_back(axis); }
    void terminal(const TerminalPlace& place) { m_drawing.terminals.push_back(place); }

    [[nodiscard]] Drawing take() { return std::move(m_drawing); }
    void describe(std::string title, std::string meaning);

private:
    struct Piece {
        Point from;
        Point to;
        double half_width = 0;
    };
    /// What passes through a square of the sheet.
    struct Bucket {
        std::vector<std::size_t> pieces;
        std::vector<std::size_t> texts;
    };
    /// Squares that a box lies in, from the first to the last of each row; beyond the sheet its
    /// rim.
    struct Squares {
        std::size_t left = 0;
        std::size_t right = 0;
        std::size_t top = 0;
        std::size_t bottom = 0;
    };
    [[nodiscard]] Squares squaresOf(const Box& box) const;
    void remember(std::span<const Point> points, bool closed, double width);
    [[nodiscard]] bool isFree(const Box& box, const Bucket& bucket) const;

    Drawing m_drawing;
    std::vector<Piece> m_pieces;
    std::vector<Box> m_texts;
    std::vector<Box> m_protected;
    std::vector<Bucket> m_buckets; ///< row by row
    std::size_t m_columns = 0;
};

/// Size of common text on a sheet of that size, pixels; everything else follows from it.
[[nodiscard]] double unitFor(const View& view);
/// Text on ready-made ground, in three ranks.
[[nodiscard]] Style common(double unit);
[[nodiscard]] Style strong(double unit);
[[nodiscard]] Style quiet(double unit);

[[nodiscard]] std::vector<Point> rectangle(const Box& box);
[[nodiscard]] std::vector<Point> circle(Point middle, double radius);

/// The text, or as much of its beginning as fits with an ellipsis behind it.
[[nodiscard]] std::string
shortened(std::string_view utf8, double size, bool bold, double most_width);

/// A character of a text, and how far from it the next one stands.
struct Letter {
    char32_t code = 0;
    double advance = 0; ///< pixels
};
/// Of a text as it was measured, for painters that set it letter by letter.
[[nodiscard]] std::vector<Letter> lettersOf(std::string_view utf8, double size, bool bold);

/// Size of a block of text.
[[nodiscard]] Box sizeOf(std::span<const TextLine> lines);

/// A text broken into lines that fit; a word that does not fit alone is shortened.
[[nodiscard]] std::vector<TextLine>
wrapped(const std::string& text, const Style& style, double most_width);

} // namespace ebbline::drawing
