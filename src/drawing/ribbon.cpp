// SPDX-License-Identifier: MIT
// Cables as ribbons: width tells the area, the filled part what is left.
#include "ribbon.h"

#include "pictures.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

constexpr double edge_width = 0.11; // units

class Ribbon {
public:
    Ribbon(Canvas& canvas, const Trace& trace, double unit)
        : m_canvas(canvas), m_trace(trace), m_unit(unit), m_edge(edge_width * unit),
          m_inner(std::max(trace.width - 2 * m_edge, 0.25 * trace.width)) {}

    void drawSleeve() const {
        const std::vector<Point> outline = band(m_trace.line, m_trace.width, m_trace.width);
        m_canvas.polygon(outline, Ink::Sheet, std::nullopt);
        const double half = (m_trace.width - m_edge) / 2;
        m_canvas.line(parallel(m_trace.line, -half, -half), {firstEdge(), m_edge, {}});
        m_canvas.line(parallel(m_trace.line, half, half), {secondEdge(), m_edge, {}});
    }

    /// The filled part and, where nothing is left, hatch all across; returns the hatched piece.
    [[nodiscard]] std::vector<Point> drawFill(const Fill& fill) const {
        const double length = lengthOf(m_trace.line);
        const auto width = [&](double share) { return std::clamp(share, 0.0, 1.0) * m_inner; };
        const auto empty = fill.emptyFrom();
        if (!empty) {
            m_canvas.polygon(
                band(m_trace.line, width(fill.from), width(fill.to)), Ink::Fill, std::nullopt);
            return {};
        }
        const bool fuller_first = fill.from >= fill.to;
        const double cut = (fuller_first ? *empty : 1 - *empty) * length;
        std::vector<Point> first = pieceOf(m_trace.line, 0, cut);
        std::vector<Point> last = pieceOf(m_trace.line, cut, length);
        std::vector<Point>& full = fuller_first ? first : last;
        std::vector<Point>& hatched = fuller_first ? last : first;
        if (full.size() > 1)
            m_canvas.polygon(band(full, width(fill.from), width(fill.to)), Ink::Fill, std::nullopt);
        if (hatched.size() > 1)
            m_canvas.hatch(
                band(hatched, m_inner, m_inner), Ink::Warning, 0.42 * m_unit, 0.09 * m_unit);
        return hatched;
    }

    /// Dashes that show on what lies below them: the filled part, or the empty one.
    void drawFillOutline(const Fill& fill, const Fill& now, std::size_t which) const {
        const auto half = [&](double share) { return std::clamp(share, 0.0, 1.0) * m_inner / 2; };
        const Ink ink = fill.from + fill.to > now.from + now.to ? Ink::Line : Ink::Sheet;
        const Pen pen = outlinePen(ink, 0.8 * m_edge, which, m_unit);
        for (const double side : {-1.0, 1.0})
            m_canvas.line(parallel(m_trace.line, side * half(fill.from), side * half(fill.to)),
                          pen);
    }

private:
    [[nodiscard]] Ink firstEdge() const {
        const bool plus_here = m_trace.role == RunRole::Twin && m_trace.plus_side < 0;
        return plus_here || m_trace.role == RunRole::Plus ? Ink::Plus : Ink::Line;
    }
    [[nodiscard]] Ink secondEdge() const {
        const bool plus_here = m_trace.role == RunRole::Twin && m_trace.plus_side > 0;
        return plus_here || m_trace.role == RunRole::Plus ? Ink::Plus : Ink::Line;
    }

    Canvas& m_canvas;
    const Trace& m_trace;
    double m_unit;
    double m_edge;
    double m_inner;
};

} // namespace

void drawRibbon(Canvas& canvas,
                const Trace& trace,
                const std::optional<Fill>& fill,
                double unit,
                std::vector<Point>& hatched) {
    if (trace.role == RunRole::Signal) {
        canvas.line(trace.line, {Ink::Soft, trace.width, {}});
    } else {
        const Ribbon ribbon(canvas, trace, unit);
        ribbon.drawSleeve();
        if (fill)
            hatched = ribbon.drawFill(*fill);
    }
    const double tail = trace.role == RunRole::Signal ? trace.width : 0.13 * unit;
    for (const Tail& one : trace.tails)
        canvas.line(one.line, {trace.role == RunRole::Signal ? Ink::Soft : Ink::Line, tail, {}});
}

void drawFillOutline(Canvas& canvas,
                     const Trace& trace,
                     const Fill& fill,
                     const Fill& now,
                     std::size_t which,
                     double unit) {
    Ribbon(canvas, trace, unit).drawFillOutline(fill, now, which);
}

} // namespace ebbline::drawing
