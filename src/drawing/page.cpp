// SPDX-License-Identifier: MIT
// One page: the verdict as its heading, the three pictures of one moment, and the reasons.
#include "font.h"
#include "pictures.h"
#include "sentences.h"
#include "verdict_column.h"

#include "ebbline/text.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

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
        tall ? drawTall(rest) : drawWide(rest);
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
        m_canvas.write(
            {shortened(text::escapeControls(installation.title), m_unit, false, room), plain},
            {area.x, y});
        if (!tall)
            m_canvas.write({about, plain}, area.x, area.width, y, Align::Right);
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
        const double upper = 0.52 * (box.height - gap);
        const double column = std::clamp(0.27 * box.width, 21 * m_unit, 27 * m_unit);
        const double plan_width = box.width - column - 1.4 * gap;
        Box written{box.right() - column, box.y - 0.3 * m_unit, column, box.height};
        const bool is_short = measureColumn(written) <= box.y + upper;
        if (is_short)
            written.height = upper;
        site(drawPlan, {box.x, box.y, plan_width, upper});
        const double lower_y = box.y + upper + gap;
        const double lower_width = is_short ? box.width : plan_width;
        const double gap_width = 0.58 * (lower_width - gap);
        site(drawGapChart, {box.x, lower_y, gap_width, box.bottom() - lower_y});
        site(drawTimeChart,
             {box.x + gap_width + gap,
              lower_y,
              lower_width - gap_width - gap,
              box.bottom() - lower_y});
        drawVerdictColumn({m_canvas, m_moment, written, m_unit});
    }

    /// Where the reasons would end.
    [[nodiscard]] double measureColumn(const Box& box) const {
        Canvas scratch({m_canvas.area().width, m_canvas.area().height, Paper::Light});
        return drawVerdictColumn({scratch, m_moment, box, m_unit});
    }

    /// One below the other, as on a phone.
    void drawTall(const Box& box) {
        const double gap = 0.6 * m_margin;
        const double free = box.height - 2 * gap;
        const double plan_height = 0.31 * free;
        const double gap_height = 0.385 * free;
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
