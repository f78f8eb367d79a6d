// SPDX-License-Identifier: MIT
// For a wall: the gap as the one picture, the verdict as the one sentence, little but large text.
#include "figures.h"
#include "font.h"
#include "gap.h"
#include "pictures.h"
#include "placer.h"
#include "sentences.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace ebbline::drawing {
namespace {

// Capitals of the smallest text are to be 2.5 % of the picture's height; a little more is kept.
constexpr double smallest_capital = 0.0258;
constexpr int most_columns = 4; // that get a name

class Room {
public:
    Room(const Moment& moment, const View& view)
        : m_moment(moment), m_canvas(view), m_unit(smallest_capital / font_capital * view.height),
          m_now(figuresAt(moment, moment.examination().start, moment.at_s)) {}

    [[nodiscard]] Drawing draw() {
        m_canvas.begin("page");
        m_canvas.ground(m_canvas.area(), Ink::Sheet);
        m_area = m_canvas.area().grown(-1.1 * m_unit);
        drawSentence();
        if (m_now.hasLoop())
            drawPicture();
        else
            m_canvas.write({words("No closed way leads to the fridge."), common(m_unit)},
                           {m_area.x, m_top + 2 * m_unit});
        m_canvas.describe(text::escapeControls(m_moment.examination().network.installation.title),
                          headline(m_moment) + ". " + balance(m_now));
        return m_canvas.take();
    }

private:
    /// The one sentence, and in smaller type what is needed and what arrives.
    void drawSentence() {
        m_canvas.begin("sentence");
        double size = 1.7 * m_unit;
        std::vector<TextLine> lines;
        const Ink ink =
            m_moment.examination().verdict.margin == Margin::Clear ? Ink::Line : Ink::Warning;
        do {
            lines = wrapped(headline(m_moment), {size, true, ink}, m_area.width);
            size *= 0.94;
        } while (lines.size() > 2 && size > m_unit);
        double y = m_area.y;
        for (const TextLine& line : lines) {
            y += 1.1 * line.style.size;
            m_canvas.write(line, {m_area.x, y});
        }
        y += 1.45 * m_unit;
        const std::string needs = balance(m_now) + basisOfVerdict();
        for (const TextLine& line : wrapped(needs, common(m_unit), m_area.width)) {
            m_canvas.write(line, {m_area.x, y});
            y += 1.1 * m_unit;
        }
        m_top = y;
    }

    /// What the verdict above goes by, where that is not what arrives.
    [[nodiscard]] std::string basisOfVerdict() const {
        const Start& start = m_moment.examination().start;
        const bool shows_lowest = m_moment.at_s == tellingMoment(start);
        const auto& held_off_v = m_moment.examination().verdict.held_off_lowest_v;
        if (!shows_lowest)
            return "";
        if (start.outcome == Outcome::Trips && held_off_v)
            return words(" Held on: {}.", volts(*held_off_v));
        if (start.outcome == Outcome::Stalls)
            return words(" The supply is not what stops it.");
        if (start.outcome == Outcome::Starts && start.sensed_lowest_v)
            return words(" Filtered: {}.", volts(*start.sensed_lowest_v));
        return "";
    }

    void drawPicture() {
        m_canvas.begin("gap-chart", "", balance(m_now));
        Columns columns = findColumns(m_moment, m_now);
        const double foot = 4.4 * m_unit;
        const double head = columns.shared ? 0 : 4.2 * m_unit;
        const double margin = 7.2 * m_unit;
        const Box plot{
            m_area.x, m_top + head, m_area.width - margin, m_area.bottom() - foot - m_top - head};
        const double narrow = 0.1 * plot.width;
        layOut(columns.out, plot.x, plot.width, narrow);
        layOut(columns.back, plot.x, plot.width, narrow);
        const Scale scale = findVoltScale(m_moment, plot.y, plot.bottom());
        const GapLines lines = makeLines(columns, m_now, scale);
        drawStations(m_canvas, columns, lines, plot);
        if (!m_now.reversed)
            drawGap(m_canvas, lines, columns.shared, m_unit);
        drawLines(m_canvas, lines, 0.2 * m_unit);
        m_canvas.begin("names");
        labelEnd(lines, plot);
        labelColumns(columns, plot);
        labelInside(lines, plot);
    }

    void labelEnd(const GapLines& lines, const Box& plot) {
        const double spare_v = m_now.spare();
        const Ink ink = spare_v < 0 || m_now.reversed ? Ink::Warning : Ink::Line;
        const double y = (lines.plus.back().y + lines.minus.back().y) / 2;
        const Wish wish{.lines = {{volts(std::abs(m_now.reversed ? m_now.arriving() : spare_v)),
                                   {1.5 * m_unit, true, ink}},
                                  {endWords(m_now), {m_unit, false, ink}}},
                        .about = {plot.right() + 0.2 * m_unit, y, 0, 0},
                        .within = {plot.right(), m_top, m_area.right() - plot.right(), plot.height},
                        .gap = 0.3 * m_unit,
                        .reach = 8 * m_unit,
                        .sides = {to_side}};
        place(m_canvas, wish);
    }

    /// The largest ones; the largest avoidable one in the largest type.
    void labelColumns(const Columns& columns, const Box& plot) {
        std::vector<std::pair<const Column*, bool>> shown; // with whether it stands above
        shown.reserve(columns.out.size() + columns.back.size());
        for (const Column& column : columns.out)
            shown.emplace_back(&column, !columns.shared);
        for (const Column& column : columns.back)
            shown.emplace_back(&column, false);
        std::erase_if(shown, [](const auto& one) {
            return one.first->thin || std::abs(one.first->volts()) < 0.005;
        });
        const bool is_supply = m_moment.examination().start.outcome != Outcome::Stalls;
        const std::string culprit = is_supply ? findCulpritColumn(m_now) : "";
        std::ranges::sort(shown, {}, [&](const auto& one) {
            return std::tuple(one.first->id != culprit, -one.first->volts(), one.first->id);
        });
        if (shown.size() > most_columns)
            shown.resize(most_columns);
        for (const auto& [column, above] : shown)
            labelColumn(*column, column->id == culprit, above, plot);
    }

    void labelColumn(const Column& column, bool is_culprit, bool above, const Box& plot) {
        const Style name{m_unit, is_culprit, Ink::Line};
        const Style value{is_culprit ? 1.7 * m_unit : m_unit, true, Ink::Line};
        std::vector<std::vector<TextLine>> wordings;
        for (const std::string& text : {column.name, column.brief})
            if (textWidth(text, m_unit, is_culprit) < 17 * m_unit)
                wordings.push_back({{text, name}, {columnWords(column.volts()), value}});
        if (is_culprit)
            wordings.push_back({{columnWords(column.volts()), value}});
        const double y = above ? plot.y : plot.bottom();
        const Box below{m_area.x, y, m_area.width, m_area.bottom() - y};
        const Wish wish{.about = {column.x + 0.2 * column.width, y, 0.6 * column.width, 0},
                        .within = above ? Box{m_area.x, m_top, m_area.width, y - m_top} : below,
                        .gap = 0.35 * m_unit,
                        .reach = 3 * m_unit,
                        .sides = {{0, above ? -1.0 : 1.0}}};
        placeFirst(m_canvas, wish, wordings);
    }

    void labelInside(const GapLines& lines, const Box& plot) {
        labelLine(m_canvas, lines.plus, true, common(m_unit), plot);
        labelLine(m_canvas, lines.minus, false, common(m_unit), plot);
    }

    static constexpr Point to_side{1, 0};

    const Moment& m_moment;
    Canvas m_canvas;
    double m_unit;
    Figures m_now;
    Box m_area;
    double m_top = 0;
};

} // namespace

Drawing room(const Moment& moment, const View& view) {
    return Room(moment, view).draw();
}

} // namespace ebbline::drawing
