// SPDX-License-Identifier: MIT
// The gap chart: where it is lost, and where nothing is left.
#include "font.h"
#include "gap.h"
#include "outline_key.h"
#include "pictures.h"
#include "placer.h"
#include "sentences.h"

#include "ebbline/telling.h"
#include "ebbline/words.h"

#include <algorithm>
#include <tuple>

namespace ebbline::drawing {
namespace {

/// A pair of lines that is not that of the moment.
struct ThinLines {
    Point end;             ///< of its plus side
    std::size_t which = 0; ///< of the moment's outlines
    std::string name;
};

class GapChart {
public:
    explicit GapChart(const Site& site)
        : m_site(site), m_canvas(site.canvas), m_unit(site.unit),
          m_now(figuresAt(site.moment, site.moment.examination().start, site.moment.at_s)) {}

    void draw() {
        m_canvas.begin("gap-chart", "", meaning());
        m_area = drawSheet(m_site);
        drawTitle();
        if (!m_now.hasLoop()) {
            m_canvas.write({words("No closed way leads to the fridge."), common(m_unit)},
                           {m_area.x, m_plot_top + 2 * m_unit});
            return;
        }
        layOutPlot();
        const GapLines lines = makeLines(m_columns, m_now, m_scale);
        drawStations(m_canvas, m_columns, lines, m_plot);
        if (!m_now.reversed)
            drawGap(m_canvas, lines, m_columns.shared, m_unit);
        drawBeside();
        drawLines(m_canvas, lines, 0.19 * m_unit);
        labelEnd(lines);
        drawAxes();
        const std::string culprit = findCulpritColumn(m_now);
        labelColumns(m_columns.out, culprit, !m_columns.shared);
        labelColumns(m_columns.back, culprit, false);
        labelLines(lines);
    }

private:
    [[nodiscard]] std::string meaning() const {
        std::string all = balance(m_now);
        for (const Portion& loss : findPortions(m_now))
            all += words(" {}: {}.", loss.name, volts(loss.volts));
        return all;
    }

    void drawTitle() {
        const std::string title = balance(m_now);
        double y = m_area.y;
        for (const TextLine& line : wrapped(title, strong(1.25 * m_unit), m_area.width)) {
            y += 1.25 * m_unit;
            m_canvas.write(line, {m_area.x, y});
            y += 0.3 * m_unit;
        }
        m_plot_top = y + 0.4 * m_unit;
    }

    void layOutPlot() {
        m_columns = findColumns(m_site.moment, m_now);
        const bool small = m_area.width < 40 * m_unit;
        const double top_room = (m_columns.shared ? 1.9 : 6.2) * m_unit;
        const double bottom_room = 4.9 * m_unit;
        m_plot = {m_area.x + 3.6 * m_unit,
                  m_plot_top + top_room,
                  m_area.width - (3.6 + (small ? 6.4 : 8.6)) * m_unit,
                  m_area.bottom() - bottom_room - m_plot_top - top_room};
        const Stretch shown = shownStretch(m_site.moment);
        m_canvas.timeAxis({m_plot, shown.from_s, shown.to_s, false});
        m_scale = findVoltScale(m_site.moment, m_plot.y, m_plot.bottom());
        const double narrow = std::clamp(0.075 * m_plot.width, 1.2 * m_unit, 3.4 * m_unit);
        layOut(m_columns.out, m_plot.x, m_plot.width, narrow);
        layOut(m_columns.back, m_plot.x, m_plot.width, narrow);
    }

    /// Other starts, or another moment of this one; without them the same start held on, at its own
    /// lowest.
    void drawBeside() {
        const Moment& moment = m_site.moment;
        const auto& held = moment.examination().held_off;
        if (moment.outlines.empty() && held)
            drawThin(moment, figuresAt(moment, *held, tellingMoment(*held)), words("held on"), 0);
        for (std::size_t i = 0; i < moment.outlines.size(); ++i) {
            const Outline& outline = moment.outlines[i];
            const Moment other{*outline.inquiry, outline.at_s};
            const Figures then = figuresAt(other, other.examination().start, outline.at_s);
            if (then.hasLoop())
                drawThin(other, then, outline.name, i);
        }
    }

    /// Lines that are not those of the moment itself.
    void drawThin(const Moment& moment, const Figures& then, std::string name, std::size_t which) {
        Columns columns = findColumns(moment, then);
        layOut(columns.out, m_plot.x, m_plot.width, m_columns.out.front().width);
        layOut(columns.back, m_plot.x, m_plot.width, m_columns.out.front().width);
        const GapLines lines = makeLines(columns, then, m_scale);
        const Pen thin = outlinePen(Ink::Soft, 0.09 * m_unit, which, m_unit);
        m_canvas.begin("beside", "", name);
        m_canvas.line(lines.plus, thin);
        m_canvas.line(lines.minus, thin);
        m_canvas.begin("gap-chart");
        m_thin.push_back({lines.plus.back(), which, std::move(name)});
    }

    /// Two scales, each a reading against battery minus.
    void drawAxes() {
        const double left = m_plot.x - 0.5 * m_unit;
        const Style style = quiet(0.9 * m_unit);
        for (const double volts_at : m_scale.ticks(2.6 * m_unit)) {
            const double y = m_scale.at(volts_at);
            m_canvas.line({{left - 0.4 * m_unit, y}, {left, y}}, {Ink::Soft, 1, {}});
            m_canvas.write({figure(volts_at, 1), style},
                           m_area.x,
                           left - 0.6 * m_unit - m_area.x,
                           y + 0.33 * m_unit,
                           Align::Right);
        }
        const double right = m_plot.right() + 0.5 * m_unit;
        Scale minus = m_scale;
        minus.low -= m_now.cut_out_v;
        minus.high -= m_now.cut_out_v;
        const double most_v = std::max(0.25, 1.4 * m_now.backLoss());
        for (const double volts_at : minus.ticks(2.6 * m_unit)) {
            if (volts_at < -1e-9 || volts_at > most_v)
                continue;
            const double y = minus.at(volts_at);
            const std::string number = figure(volts_at, 1);
            const Box box{right, y - 0.7 * m_unit, 2.8 * m_unit, 1.4 * m_unit};
            if (!m_canvas.isFree(box))
                continue; // what is to spare or short stands there
            m_canvas.line({{right, y}, {right + 0.4 * m_unit, y}}, {Ink::Soft, 1, {}});
            m_canvas.write({number, style}, {right + 0.6 * m_unit, y + 0.33 * m_unit});
        }
        drawAxisTitles(style);
    }

    void drawAxisTitles(const Style& style) {
        const double y = m_plot_top + 0.9 * m_unit;
        const std::string plus = words("plus side, V from battery minus");
        const std::string minus = words("minus side, V from 0");
        m_canvas.write({plus, style}, {m_area.x, y});
        const double width = textWidth(minus, style.size, false);
        const double used = textWidth(plus, style.size, false);
        if (m_area.x + used + m_unit < m_area.right() - width)
            m_canvas.write({minus, style}, {m_area.right() - width, y});
        const double left = m_area.x + used + 2 * m_unit;
        drawOutlineKey(m_canvas,
                       m_unnamed,
                       {left, y - m_unit, m_area.right() - width - m_unit - left, m_unit},
                       m_unit);
    }

    void labelEnd(const GapLines& lines) {
        const double spare_v = m_now.spare();
        const bool is_short = spare_v < 0;
        const Ink ink = is_short || m_now.reversed ? Ink::Warning : Ink::Line;
        const Style large{1.3 * m_unit, true, ink};
        const Style plain{m_unit, false, ink};
        const std::vector<TextLine> full{
            {volts(std::abs(m_now.reversed ? m_now.arriving() : spare_v)), large},
            {endWords(m_now), plain}};
        const double y = (lines.plus.back().y + lines.minus.back().y) / 2;
        const Wish wish{.about = {m_plot.right() + 0.3 * m_unit, y, 0, 0},
                        .within = rightMargin(),
                        .gap = 0.25 * m_unit,
                        .reach = 20 * m_unit,
                        .sides = {{1, 0}}};
        const std::vector<TextLine> brief{{full[0].text, Style{m_unit, true, ink}},
                                          {full[1].text, {0.9 * m_unit, false, ink}}};
        placeFirst(m_canvas, wish, std::vector<std::vector<TextLine>>{full, brief});
        for (const ThinLines& thin : m_thin)
            if (!place(
                    m_canvas,
                    {.lines = wrapped(thin.name, quiet(0.9 * m_unit), rightMargin().width - m_unit),
                     .about = {thin.end.x + 0.2 * m_unit, thin.end.y, 0, 0},
                     .within = rightMargin(),
                     .gap = 0.2 * m_unit,
                     .reach = 8 * m_unit,
                     .sides = {{1, 0}}}))
                m_unnamed.push_back({thin.which, thin.name});
    }

    [[nodiscard]] Box rightMargin() const {
        return {m_plot.right() + 0.2 * m_unit,
                m_plot.y,
                m_area.right() - m_plot.right() - 0.2 * m_unit,
                m_plot.height + 2 * m_unit};
    }

    /// Names and values below the columns, or above them; the largest avoidable loss largest.
    void labelColumns(std::vector<Column> columns, const std::string& culprit, bool above) {
        std::ranges::sort(columns, {}, [&](const Column& column) {
            return std::tuple(column.id != culprit, -column.volts(), column.x, column.id);
        });
        for (const Column& column : columns)
            if (!column.thin)
                labelColumn(column, column.id == culprit, above);
    }

    void labelColumn(const Column& column, bool is_culprit, bool above) {
        const double y = above ? m_plot.y : m_plot.bottom();
        const Box zone = above ? Box{m_area.x,
                                     m_plot_top + 1.3 * m_unit,
                                     m_area.width,
                                     m_plot.y - m_plot_top - 1.3 * m_unit}
                               : Box{m_area.x, y, m_area.width, m_area.bottom() - y};
        const Style name = is_culprit ? strong(m_unit) : common(0.95 * m_unit);
        const Style value = is_culprit ? strong(1.7 * m_unit) : strong(0.95 * m_unit);
        std::vector<std::vector<TextLine>> wordings;
        const auto add = [&](const std::string& text, double width) {
            std::vector<TextLine> lines = wrapped(text, name, width * m_unit);
            if (lines.size() > 2)
                return;
            lines.push_back({columnWords(column.volts()), value});
            wordings.push_back(std::move(lines));
        };
        for (const double width : {22.0, 13.0, 10.0, 8.0})
            add(column.name, width);
        for (const double width : {10.0, 7.0, 5.0})
            add(column.brief, width);
        if (is_culprit)
            wordings.push_back({{columnWords(column.volts()), value}});
        const Wish wish{.about = {column.x + 0.2 * column.width, y, 0.6 * column.width, 0},
                        .within = zone,
                        .gap = 0.4 * m_unit,
                        .reach = 5 * m_unit,
                        .sides = {{0, above ? -1.0 : 1.0}}};
        placeFirst(m_canvas, wish, wordings);
    }

    void labelLines(const GapLines& lines) {
        const double spare_v = m_now.source_v - m_now.cut_out_v;
        if (spare_v > 0 && m_columns.shared && !m_now.reversed)
            writeInGap(m_canvas,
                       lines,
                       std::vector<TextLine>{{volts(spare_v), strong(1.3 * m_unit)},
                                             {words("to spare at rest"), common(m_unit)}},
                       m_unit);
        labelLine(m_canvas, lines.plus, true, common(m_unit), m_plot);
        labelLine(m_canvas, lines.minus, false, common(m_unit), m_plot);
    }

    const Site& m_site;
    Canvas& m_canvas;
    double m_unit;
    Figures m_now;
    Columns m_columns;
    Scale m_scale;
    Box m_area;
    Box m_plot;
    double m_plot_top = 0;
    std::vector<ThinLines> m_thin;
    std::vector<OutlineName> m_unnamed; ///< of these: at whose end there was no room
};

} // namespace

void drawGapChart(const Site& site) {
    GapChart(site).draw();
}

} // namespace ebbline::drawing
