// SPDX-License-Identifier: MIT
// Pictures of one start as plain descriptions, and their SVG and PNG.
#pragma once

#include "ebbline/inquiry.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ebbline {

/// A place in a drawing, pixels from its upper left corner; y grows downwards.
struct Point {
    double x = 0;
    double y = 0;
    bool operator==(const Point&) const = default;
};

/// An upright rectangle in a drawing.
struct Box {
    double x = 0; ///< left
    double y = 0; ///< top
    double width = 0;
    double height = 0;
    bool operator==(const Box&) const = default;

    [[nodiscard]] double right() const { return x + width; }
    [[nodiscard]] double bottom() const { return y + height; }
    [[nodiscard]] Point middle() const { return {x + width / 2, y + height / 2}; }
    [[nodiscard]] bool contains(const Box& other) const;
    [[nodiscard]] bool overlaps(const Box& other) const;
    /// Larger by `margin` on every side; smaller when that is negative.
    [[nodiscard]] Box grown(double margin) const;
};

/// The colours of a palette by what they are for.
enum class Ink {
    Desk,    ///< ground of the whole page
    Sheet,   ///< ground of one picture, and of parts
    Line,    ///< lines, and all text that matters
    Soft,    ///< text of the second rank
    Faint,   ///< ruler, grid, outline of the rooms
    Spare,   ///< ground of what is to spare
    Fill,    ///< filled part of a cable
    Warning, ///< shortfall; never without hatch or words
    Plus,    ///< thin edge of the plus conductor
};
inline constexpr std::array all_inks{Ink::Desk,
                                     Ink::Sheet,
                                     Ink::Line,
                                     Ink::Soft,
                                     Ink::Faint,
                                     Ink::Spare,
                                     Ink::Fill,
                                     Ink::Warning,
                                     Ink::Plus};

enum class Paper { Light, Dark };

/// A colour, each channel 0 to 255.
struct Colour {
    int red = 0;
    int green = 0;
    int blue = 0;
    bool operator==(const Colour&) const = default;
};

/// A polygon or an open line of straight pieces. Circles and hatch are made of these too.
struct Shape {
    std::vector<Point> points;
    bool closed = false;
    std::optional<Ink> fill; ///< closed shapes only
    std::optional<Ink> edge;
    double width = 0;         ///< of the edge
    std::vector<double> dash; ///< lengths on and off; empty: unbroken
    bool operator==(const Shape&) const = default;
};

/// One line of text. `box` is as measured with the font it is set in.
struct Label {
    std::string text;
    Box box;
    double baseline_y = 0;
    double size = 0; ///< of the font, pixels
    bool bold = false;
    Ink ink = Ink::Line;
    bool operator==(const Label&) const = default;
};

/// What belongs together, painted in order.
struct Group {
    std::string role;    ///< "plan", "run", "joint", "part", "cursor", ...
    std::string id;      ///< of the part, run or joint in the scene; may be empty
    std::string meaning; ///< in words, for who cannot see it; may be empty
    std::vector<std::variant<Shape, Label>> items;
    bool operator==(const Group&) const = default;
};

/// A box across which scene time runs from left to right.
struct TimeAxis {
    Box box;
    double from_s = 0;
    double to_s = 0;
    bool is_scale = true; ///< else no place is a moment by itself: only how far one drags tells
    bool operator==(const TimeAxis&) const = default;
    /// At its ends for what lies beside it.
    [[nodiscard]] double timeAt(double x) const {
        return std::clamp(from_s + (x - box.x) / box.width * (to_s - from_s), from_s, to_s);
    }
    [[nodiscard]] double xAt(double at_s) const {
        return box.x + (std::clamp(at_s, from_s, to_s) - from_s) / (to_s - from_s) * box.width;
    }
};

/// Where a terminal lies on a plan, so that a meter's lead can be put on it.
struct TerminalPlace {
    Terminal terminal;
    Point at;
    bool operator==(const TerminalPlace&) const = default;
};

/// A whole picture. Painters know nothing but this.
struct Drawing {
    double width = 0;
    double height = 0;
    Paper paper = Paper::Light;
    std::string title;
    std::string meaning; ///< the whole in words
    std::vector<Group> groups;
    std::vector<TimeAxis> time_axes; ///< where a moment can be pointed at
    std::vector<TerminalPlace> terminals;
    bool operator==(const Drawing&) const = default;
};

/// What is drawn as an outline beside a start: another one, or another moment of the same.
struct Outline {
    const Inquiry* inquiry = nullptr;
    double at_s = 0;  ///< scene time
    std::string name; ///< in words: "before"
};

/// What a meter between two terminals shows, over scene time.
struct MeterTrace {
    std::string name; ///< in words, of what it hangs on
    std::vector<double> at_s;
    std::vector<double> volts;
};

/// What is to be drawn: one start at one moment.
struct Moment {
    const Inquiry& inquiry;
    double at_s = 0;                 ///< scene time
    std::vector<Outline> outlines{}; ///< two at most, each with dashes of its own
    std::optional<MeterTrace> meter; ///< in the time chart, on a scale of its own
    std::string marked{};            ///< name of the element that the plan points out; or none
    bool is_watched = false;         ///< more may be written beside pictures, which then stay put
    [[nodiscard]] const Examination& examination() const { return inquiry.examination; }
};

struct View {
    double width = 1280;
    double height = 800;
    Paper paper = Paper::Light;
    bool bare = false; ///< of a plan: only what an eye sees, nothing measured or found
};

namespace drawing {

/// Below this nothing can be read: pixels.
inline constexpr double least_width = 320;
inline constexpr double least_height = 240;

/// The moment that says most: the lowest voltage, else shortly after the last event.
[[nodiscard]] double tellingMoment(const Start& start);

/// The installation to scale; how full a cable is drawn tells what is left above the cut-out.
[[nodiscard]] Drawing plan(const Moment& moment, const View& view);
/// The supply loop unrolled: plus side falling, minus side rising, and the gap between them.
[[nodiscard]] Drawing gapChart(const Moment& moment, const View& view);
/// The controller's voltage and current over time, with a cursor at the moment.
[[nodiscard]] Drawing timeChart(const Moment& moment, const View& view);
/// The three of them with the verdict; below each other where it is higher than wide.
[[nodiscard]] Drawing page(const Moment& moment, const View& view);
/// For a wall: one picture, one sentence, at most fifteen lines of large text.
[[nodiscard]] Drawing room(const Moment& moment, const View& view);

[[nodiscard]] Colour colourOf(Ink ink, Paper paper);
/// Contrast ratio of two colours by WCAG 2.2: 1 to 21.
[[nodiscard]] double contrast(Colour one, Colour other);

/// The file of the font that all text was measured with, for painters that load fonts themselves.
[[nodiscard]] std::string fontFile(bool bold);

/// Self-contained SVG 1.1; every text escaped.
[[nodiscard]] std::string writeSvg(const Drawing& drawing);
/// PNG bytes by way of the SVG. Throws std::runtime_error where librsvg cannot be loaded.
[[nodiscard]] std::string writePng(const Drawing& drawing);

} // namespace drawing
} // namespace ebbline
