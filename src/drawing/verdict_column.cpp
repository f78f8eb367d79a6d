// SPDX-License-Identifier: MIT
// The written side of a page: reasons, where it is lost, what would make it start.
#include "verdict_column.h"

#include "font.h"
#include "sentences.h"

#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

class Column {
public:
    explicit Column(const Site& site)
        : m_site(site), m_canvas(site.canvas), m_unit(site.unit), m_y(site.box.y) {}

    [[nodiscard]] double draw() {
        m_canvas.begin("verdict");
        for (const std::string& sentence : reasons(m_site.moment))
            write(sentence, common(m_unit));
        if (const std::string action = firstAction(m_site.moment); !action.empty())
            write(words("First: {}", action), strong(m_unit));
        drawPortions();
        drawRemedies();
        return m_y;
    }

private:
    [[nodiscard]] bool hasRoom(double units) const {
        return m_y + units * m_unit <= m_site.box.bottom();
    }

    void write(const std::string& sentence, const Style& style) {
        const std::vector<TextLine> lines = wrapped(sentence, style, m_site.box.width);
        if (!hasRoom(1.35 * static_cast<double>(lines.size())))
            return;
        for (const TextLine& line : lines) {
            m_y += 1.35 * m_unit;
            m_canvas.write(line, {m_site.box.x, m_y});
        }
        m_y += 0.25 * m_unit;
    }

    void drawHeading(const std::string& text) {
        m_y += 1.0 * m_unit;
        m_canvas.line({{m_site.box.x, m_y}, {m_site.box.right(), m_y}}, {Ink::Faint, 1, {}});
        m_y += 1.6 * m_unit;
        m_canvas.write({text, strong(1.1 * m_unit)}, {m_site.box.x, m_y});
        m_y += 0.3 * m_unit;
    }

    void drawPortions() {
        const Start& start = m_site.moment.examination().start;
        const Figures figures = figuresAt(m_site.moment, start, tellingMoment(start));
        if (!figures.hasLoop() || start.attempts.empty() || !hasRoom(7))
            return;
        const std::vector<Portion> portions = findPortions(figures);
        const bool lifted = std::ranges::any_of(
            portions, [](const Portion& portion) { return portion.volts < -0.005; });
        drawHeading(
            lifted
                ? words("Where volts are lost at {}", seconds(figures.at_s))
                : words("Where the {} goes at {}", volts(figures.lost()), seconds(figures.at_s)));
        const double most_v = std::ranges::max(portions, {}, &Portion::volts).volts;
        for (const Portion& portion : portions)
            drawPortion(portion, most_v);
        const bool any = std::ranges::any_of(
            portions, [](const Portion& portion) { return portion.avoidable_v >= 0.02; });
        if (any && hasRoom(1.4)) {
            m_y += 1.35 * m_unit;
            m_canvas.write({words("hatched: need not be lost"), quiet(0.95 * m_unit)},
                           {m_site.box.x, m_y});
        }
    }

    /// Name and volts above a bar; what need not be lost is hatched. Nothing where there is no
    /// room.
    void drawPortion(const Portion& portion, double most_v) {
        const Box& box = m_site.box;
        const std::string value = volts(std::abs(portion.volts));
        const double value_width = textWidth(value, m_unit, true);
        const auto name = wrapped(portion.name, common(m_unit), box.width - value_width - m_unit);
        constexpr double line = 1.45; // units
        if (!hasRoom(line * static_cast<double>(name.size()) + 1.45))
            return;
        m_canvas.begin("portion", portion.id, portion.name + ": " + volts(portion.volts));
        for (const TextLine& part : name) {
            m_y += line * m_unit;
            m_canvas.write(part, {box.x, m_y});
        }
        m_canvas.write({value, strong(m_unit)}, box.x, box.width, m_y, Align::Right);
        const double width = std::max(0.0, portion.volts) / most_v * box.width;
        const double needless =
            width * std::clamp(portion.avoidable_v / std::max(portion.volts, 1e-9), 0.0, 1.0);
        const Box bar{box.x, m_y + 0.4 * m_unit, width, 0.7 * m_unit};
        const Pen pen{Ink::Line, 0.8, {}};
        if (width > 1)
            m_canvas.polygon(rectangle(bar), Ink::Spare, pen);
        if (needless > 2) {
            const Box part{bar.right() - needless, bar.y, needless, bar.height};
            m_canvas.polygon(rectangle(part), Ink::Sheet, pen);
            m_canvas.hatch(rectangle(part), Ink::Warning, 0.5 * m_unit, 1.2);
        }
        m_y += width > 1 ? 1.1 * m_unit : 0.2 * m_unit;
    }

    void drawRemedies() {
        const std::vector<RemedyLine> lines = remedyLines(m_site.moment);
        if (lines.empty() || !hasRoom(4.4))
            return;
        m_canvas.begin("remedies");
        const bool any = std::ranges::any_of(lines, &RemedyLine::starts);
        drawHeading(any ? words("What would make it start") : words("What was tried"));
        for (const RemedyLine& line : lines)
            drawRemedy(line);
    }

    void drawRemedy(const RemedyLine& line) {
        const Style style = line.starts ? common(m_unit) : quiet(m_unit);
        const double used = textWidth(line.result, m_unit, false);
        const std::vector<TextLine> what =
            wrapped(line.what, style, m_site.box.width - used - 1.5 * m_unit);
        if (!hasRoom(1.4 * static_cast<double>(what.size())))
            return;
        m_canvas.write(
            {line.result, style}, m_site.box.x, m_site.box.width, m_y + 1.4 * m_unit, Align::Right);
        for (const TextLine& part : what) {
            m_y += 1.4 * m_unit;
            m_canvas.write(part, {m_site.box.x, m_y});
        }
    }

    const Site& m_site;
    Canvas& m_canvas;
    double m_unit;
    double m_y;
};

} // namespace

double drawVerdictColumn(const Site& site) {
    return Column(site).draw();
}

} // namespace ebbline::drawing
