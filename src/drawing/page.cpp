// SPDX-License-Identifier: MIT
// One page: the verdict as its heading, the three pictures of one moment, and the reasons.
#include "font.h"
#include "pictures.h"
#include "sentences.h"
#include "verdict_column.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

constexpr double least_upper = 0.52; // of the height: plan, with the reasons beside it
constexpr double most_upper = 0.62;

class Page {
public:
    Page(const Moment& moment, const View& view)
        : m_moment(moment), m_canvas(view), m_unit(unitFor(view)), m_margin(1.1 * m_unit) {}

    [[nodiscard]] Drawing draw() {
        m_canvas.begin("page");
        m_canvas.ground(m_canvas.area(), Ink::Desk);
        const Box area = m_canvas.area().grown(-m_margin);
        const bool tall = area.height > area.width;
        const double top = drawHeader(area, tall);
        const Box rest{area.x, top, area.width, area.bottom() - top};
        if (tall)
            drawTall(rest);
        else if (m_moment.examination().start.attempts.empty())
            drawBrief(rest);
        else
            drawWide(rest);
        describe();
        return m_canvas.take();
    }

private:
    [[nodiscard]] bool isGood() const {
        return m_moment.examination().verdict.margin == Margin::Clear;
    }

    /// Title and circumstances, then the verdict; returns where the pictures may begin.
    double drawHeader(const Box& area, bool tall) {
        m_canvas.begin("header");
        const Installation& installation = m_moment.examination().network.installation;
        double y = area.y + m_unit;
        const Style plain = quiet(m_unit);
        const std::string about = circumstances(installation);
        const double about_width = textWidth(about, m_unit, false);
        const double room = tall ? area.width : area.width - about_width - 2 * m_unit;
        const double first_y = y;
        const auto title = wrapped(installation.title, plain, room);
        for (std::size_t i = 0; i < title.size(); ++i) {
            y += i > 0 ? 1.3 * m_unit : 0;
            m_canvas.write(title[i], {area.x, y});
        }
        if (!tall)
            m_canvas.write({about, plain}, area.x, area.width, first_y, Align::Right);
        const Style heading{
            (tall ? 1.45 : 2.1) * m_unit, true, isGood() ? Ink::Line : Ink::Warning};
        y += 0.5 * m_unit;
        for (const TextLine& line : wrapped(headline(m_moment), heading, area.width)) {
            y += 1.12 * heading.size;
            m_canvas.write(line, {area.x, y});
        }
        return y + 0.9 * m_unit;
    }

    /// Plan and reasons above, gap and time below; where there is much to say, the reasons go all
    /// the way down.
    void drawWide(const Box& box) {
        const double gap = m_margin;
        const double height = box.height - gap;
        const double column = std::clamp(0.27 * box.width, 21 * m_unit, 27 * m_unit);
        const double beside = box.width - column - 1.4 * gap;
        Box written{box.right() - column, box.y - 0.3 * m_unit, column, box.height};
        const double needed = (measureColumn(written, m_unit) - box.y) / height;
        const bool may_grow = m_moment.is_watched && !isGood();
        const bool is_short = needed <= most_upper && !may_grow;
        const double upper = height * (is_short ? std::max(needed, least_upper) : least_upper);
        if (is_short)
            written.height = upper + 0.5 * m_unit;
        site(drawPlan, {box.x, box.y, beside, upper});
        drawCharts({box.x, box.y + upper + gap, is_short ? box.width : beside, height - upper});
        drawVerdictColumn({m_canvas, m_moment, written, columnUnit(written)});
    }

    /// Nothing was tried, so there is little to say: that goes below the heading, across.
    void drawBrief(Box box) {
        std::vector<TextLine> lines;
        for (const std::string& sentence : reasons(m_moment))
            lines.push_back({sentence, common(1.1 * m_unit)});
        if (const std::string action = firstAction(m_moment); !action.empty())
            lines.push_back({words("First: {}", action), strong(1.1 * m_unit)});
        double y = box.y - 0.6 * m_unit;
        for (const TextLine& line : lines)
            for (const TextLine& part : wrapped(line.text, line.style, box.width)) {
                y += 1.5 * m_unit;
                m_canvas.write(part, {box.x, y});
            }
        y += 1.1 * m_unit;
        const double height = box.bottom() - y - m_margin;
        site(drawPlan, {box.x, y, box.width, least_upper * height});
        drawCharts(
            {box.x, y + least_upper * height + m_margin, box.width, (1 - least_upper) * height});
    }

    /// Gap and time beside each other.
    void drawCharts(const Box& box) {
        const double gap_width = 0.58 * (box.width - m_margin);
        site(drawGapChart, {box.x, box.y, gap_width, box.height});
        site(drawTimeChart,
             {box.x + gap_width + m_margin, box.y, box.width - gap_width - m_margin, box.height});
    }

    /// Where the reasons would end.
    [[nodiscard]] double measureColumn(const Box& box, double unit) const {
        Canvas scratch({m_canvas.area().width, m_canvas.area().height, Paper::Light});
        return drawVerdictColumn({scratch, m_moment, {box.x, box.y, box.width, 1e6}, unit});
    }

    /// Larger type where there is room for it.
    [[nodiscard]] double columnUnit(const Box& box) const {
        for (const double factor : {1.15, 1.1, 1.05})
            if (measureColumn(box, factor * m_unit) <= box.bottom())
                return factor * m_unit;
        return m_unit;
    }

    /// One below the other, as on a phone.
    void drawTall(const Box& box) {
        const double gap = 0.6 * m_margin;
        const double free = box.height - 2 * gap;
        const double plan_height = 0.345 * free;
        const double gap_height = 0.36 * free;
        site(drawPlan, {box.x, box.y, box.width, plan_height});
        site(drawGapChart, {box.x, box.y + plan_height + gap, box.width, gap_height});
        const double y = box.y + plan_height + gap_height + 2 * gap;
        site(drawTimeChart, {box.x, y, box.width, box.bottom() - y});
    }

    void site(void (*picture)(const Site&), const Box& box) {
        picture({m_canvas, m_moment, box, m_unit});
    }

    void describe() {
        std::string meaning = headline(m_moment) + ".";
        for (const std::string& reason : reasons(m_moment))
            meaning += " " + reason;
        m_canvas.describe(text::escapeControls(m_moment.examination().network.installation.title),
                          meaning);
    }

    const Moment& m_moment;
    Canvas m_canvas;
    double m_unit;
    double m_margin;
};

} // namespace

Drawing page(const Moment& moment, const View& view) {
    return Page(moment, view).draw();
}

} // namespace ebbline::drawing
