// SPDX-License-Identifier: MIT
// The time chart: what a scope at the fridge would show, with a cursor.
#include "curve.h"
#include "font.h"
#include "geometry.h"
#include "meter_strip.h"
#include "outline_key.h"
#include "pictures.h"
#include "placer.h"
#include "scale.h"
#include "sentences.h"
#include "time_window.h"

#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

const Start* addressOf(const std::optional<Start>& start) {
    return start ? &*start : nullptr;
}

/// The voltage of another start.
struct OtherCurve {
    const Start& start;
    std::string name;
    std::vector<Point> line;
};

/// Outlines that are other starts; of this one at another moment there is nothing to draw.
std::vector<OtherCurve> otherCurves(const Moment& moment) {
    std::vector<OtherCurve> others;
    for (const Outline& outline : moment.outlines)
        if (outline.inquiry != &moment.inquiry)
            others.push_back({outline.inquiry->examination.start, outline.name, {}});
    return others;
}

class TimeChart {
public:
    explicit TimeChart(const Site& site)
        : m_site(site), m_canvas(site.canvas), m_unit(site.unit),
          m_start(site.moment.examination().start), m_verdict(site.moment.examination().verdict),
          m_held_off(addressOf(site.moment.examination().held_off)),
          m_others(otherCurves(site.moment)), m_frame(start::frameAt(m_start, site.moment.at_s)),
          m_subject(static_cast<std::size_t>(site.moment.examination().network.subject())) {}

    void draw() {
        m_canvas.begin("time-chart", "", words("Voltage and current at the fridge over time."));
        m_area = drawSheet(m_site);
        m_canvas.write({words("At the fridge"), strong(1.25 * m_unit)},
                       {m_area.x, m_area.y + 1.25 * m_unit});
        layOut();
        drawThresholds();
        drawFlags();
        drawOthers();
        drawCurves();
        drawCursor();
        drawAxes();
        drawMeter();
        labelThresholds();
        labelCursor();
        labelFlags();
        nameOthers();
        labelHeldOff();
    }

private:
    void layOut() {
        const TimeWindow window = findWindow(m_start, m_held_off, m_site.moment.at_s);
        const double left = m_area.x + 3.4 * m_unit;
        const double right = m_area.right() - 0.4 * m_unit;
        const double top = m_area.y + 4.9 * m_unit;
        const double bottom = m_area.bottom() - 1.9 * m_unit;
        m_time = {window.from_s, window.to_s, left, right};
        m_canvas.timeAxis(
            {{left, m_area.y, right - left, m_area.height}, window.from_s, window.to_s});
        // What a meter shows stands above the current, on a scale of its own.
        const double meter = m_site.moment.meter ? 0.32 * (bottom - top) : 0;
        const double split = top + 0.7 * (bottom - top);
        m_volts_box = {left, top, right - left, split - 0.9 * m_unit - top - meter};
        m_meter_box = {
            left, m_volts_box.bottom() + 1.6 * m_unit, right - left, meter - 1.6 * m_unit};
        m_amps_box = {left, split, right - left, bottom - split};
        findVolts();
        findAmps();
    }

    /// Both charts and what lies between them.
    [[nodiscard]] Box plotBox() const {
        return {m_volts_box.x,
                m_volts_box.y,
                m_area.right() - m_volts_box.x,
                m_amps_box.bottom() - m_volts_box.y};
    }

    void findVolts() {
        double low_v = m_verdict.cut_out_v;
        double high_v = m_verdict.cut_in_v;
        const auto include = [&](const Start& start) {
            for (const Frame& frame : start.frames)
                if (frame.at_s >= m_time.low && frame.at_s <= m_time.high)
                    high_v = std::max(high_v, frame.controller_v);
            for (const Attempt& attempt : start.attempts)
                for (const Frame& frame : start.frames)
                    if (frame.at_s >= std::max(m_time.low, attempt.begin_s) &&
                        frame.at_s <= std::min(m_time.high, attempt.end_s))
                        low_v = std::min(low_v, frame.controller_v);
        };
        include(m_start);
        if (m_held_off != nullptr)
            include(*m_held_off);
        for (const OtherCurve& other : m_others)
            include(other.start);
        // Without power it is 0 V, which would press all the rest together: that leaves the chart,
        // unless there is nothing else.
        const double now_v = m_frame.controller_v;
        low_v = std::max(low_v, m_verdict.cut_out_v - 1.5 * (high_v - m_verdict.cut_out_v));
        if (m_start.attempts.empty() && now_v < low_v)
            low_v = now_v;
        const double air_v = 0.1 * (high_v - low_v);
        m_volts = {low_v - 2 * air_v, high_v + air_v, m_volts_box.bottom(), m_volts_box.y};
    }

    void findAmps() {
        double high_a = 1;
        for (const Frame& frame : m_start.frames)
            if (frame.at_s >= m_time.low && frame.at_s <= m_time.high)
                high_a = std::max(high_a, frame.amps[m_subject]);
        // The charging of the input capacitor has no place here.
        high_a = std::min(high_a, 1.15 * m_start.peak_a.value_or(high_a));
        m_amps = {0, 1.1 * high_a, m_amps_box.bottom(), m_amps_box.y};
    }

    void drawThresholds() {
        for (const bool is_cut_out : {true, false}) {
            const double y = m_volts.at(is_cut_out ? m_verdict.cut_out_v : m_verdict.cut_in_v);
            const Pen pen = is_cut_out
                                ? Pen{Ink::Warning, 0.13 * m_unit, {}}
                                : Pen{Ink::Soft, 0.09 * m_unit, {0.15 * m_unit, 0.35 * m_unit}};
            m_canvas.line({{m_volts_box.x, y}, {m_volts_box.right(), y}}, pen);
        }
    }

    void drawMeter() {
        if (!m_site.moment.meter)
            return;
        const double called_s =
            m_start.attempts.empty() ? m_time.low : m_start.attempts.front().begin_s;
        drawMeterStrip(m_canvas,
                       *m_site.moment.meter,
                       {m_time,
                        m_meter_box,
                        m_area.x,
                        std::max(m_time.low, called_s),
                        m_site.moment.at_s,
                        m_unit});
    }

    [[nodiscard]] std::vector<StartEvent> shownEvents() const {
        std::vector<StartEvent> events;
        for (const StartEvent& event : m_start.events)
            if (event.at_s >= m_time.low && event.at_s <= m_time.high)
                events.push_back(event);
        return events;
    }

    /// Poles from the flags down to the curve, no farther: what lies below is room for words.
    void drawFlags() {
        for (const StartEvent& event : shownEvents()) {
            const double x = m_time.at(event.at_s);
            const double foot = m_volts.within(start::frameAt(m_start, event.at_s).controller_v);
            m_canvas.line({{x, m_volts_box.y - 0.5 * m_unit}, {x, foot}}, {Ink::Faint, 0.8, {}});
            m_canvas.polygon({{x, m_volts_box.y - 0.9 * m_unit},
                              {x + 0.6 * m_unit, m_volts_box.y - 0.65 * m_unit},
                              {x, m_volts_box.y - 0.4 * m_unit}},
                             Ink::Line,
                             std::nullopt);
        }
    }

    void drawCurves() {
        const Waveform& waveform = m_start.waveform;
        drawCurve(thinned(waveform.time_s, waveform.volts, m_time, m_volts),
                  m_volts_box,
                  {Ink::Line, 0.16 * m_unit, {}});
        drawCurve(thinned(waveform.time_s, waveform.amps, m_time, m_amps),
                  m_amps_box,
                  {Ink::Line, 0.13 * m_unit, {}});
        if (m_held_off == nullptr)
            return;
        // What the cut-out decides by; until it acts the two starts are one.
        const double from_s = m_start.attempts.front().end_s;
        Scale later = m_time;
        later.from = m_time.at(from_s);
        later.low = from_s;
        if (later.low < later.high && from_s > m_time.low)
            m_held =
                thinned(m_held_off->waveform.time_s, m_held_off->waveform.sensed, later, m_volts);
        drawCurve(m_held, m_volts_box, {Ink::Line, 0.12 * m_unit, {0.5 * m_unit, 0.35 * m_unit}});
    }

    void drawOthers() {
        if (m_others.empty())
            return;
        for (std::size_t i = 0; i < m_others.size(); ++i) {
            OtherCurve& other = m_others[i];
            m_canvas.begin("beside", "", other.name);
            const Waveform& waveform = other.start.waveform;
            other.line = thinned(waveform.time_s, waveform.volts, m_time, m_volts);
            drawCurve(other.line, m_volts_box, outlinePen(Ink::Soft, 0.1 * m_unit, i, m_unit));
        }
        m_canvas.begin("time-chart");
    }

    /// Beside the title, else each on its own way.
    void nameOthers() {
        if (m_others.empty())
            return;
        std::vector<OutlineName> names;
        for (std::size_t i = 0; i < m_others.size(); ++i)
            names.push_back({i, m_others[i].name});
        const double left =
            m_area.x + textWidth(words("At the fridge"), 1.25 * m_unit, true) + 1.5 * m_unit;
        const Box row{left, m_area.y, m_area.right() - 5 * m_unit - left, 1.25 * m_unit};
        if (!drawOutlineKey(m_canvas, names, row, m_unit))
            for (const OtherCurve& other : m_others)
                label(other);
    }

    /// Where there is room on its way.
    void label(const OtherCurve& other) {
        m_canvas.begin("beside");
        for (const double share : {0.62, 0.5, 0.75, 0.35, 0.9, 0.2}) {
            const double at_s = std::lerp(m_time.low, m_time.high, share);
            const double y = m_volts.within(start::frameAt(other.start, at_s).controller_v);
            if (place(m_canvas,
                      {.lines = {{other.name, common(0.95 * m_unit)}},
                       .about = {m_time.at(at_s), y, 0, 0},
                       .within = m_volts_box,
                       .gap = 0.3 * m_unit,
                       .reach = 3 * m_unit,
                       .sides = {{0, 1}, {0, -1}}}))
                return;
        }
    }

    void drawCurve(const std::vector<Point>& line, const Box& box, const Pen& pen) {
        for (std::vector<Point>& piece : clipped(line, box.y, box.bottom()))
            m_canvas.line(std::move(piece), pen);
    }

    void drawCursor() {
        m_canvas.begin("cursor", "", words("The moment of the other pictures."));
        const double x = m_time.at(m_site.moment.at_s);
        const double foot = m_amps_box.bottom();
        m_canvas.line({{x, m_volts_box.y - 0.4 * m_unit}, {x, foot}}, {Ink::Line, 1.2, {}});
        for (const double y :
             {m_volts.within(m_frame.controller_v), m_amps.within(m_frame.amps[m_subject])})
            m_canvas.polygon(circle({x, y}, 0.32 * m_unit), Ink::Sheet, Pen{Ink::Line, 1.6, {}});
    }

    void drawAxes() {
        m_canvas.begin("axis");
        const Style style = quiet(0.9 * m_unit);
        const auto scale = [&](const Scale& up, double apart, const char* unit) {
            const double step = up.tickStep(apart);
            for (const double value : up.ticks(apart)) {
                const double y = up.at(value);
                m_canvas.line({{m_time.from - 0.5 * m_unit, y}, {m_time.from - 0.1 * m_unit, y}},
                              {Ink::Soft, 1, {}});
                const bool last = value + step > up.high;
                m_canvas.write({figure(value, step < 1 ? 1 : 0) + (last ? unit : ""), style},
                               m_area.x,
                               m_time.from - 0.7 * m_unit - m_area.x,
                               y + 0.33 * m_unit,
                               Align::Right);
            }
        };
        scale(m_volts, 2.4 * m_unit, " V");
        scale(m_amps, 1.8 * m_unit, " A");
        const double y = m_amps_box.bottom();
        m_canvas.line({{m_time.from, y}, {m_time.to, y}}, {Ink::Soft, 1, {}});
        const double apart = 4.5 * m_unit;
        const double step = m_time.tickStep(apart);
        for (const double at_s : m_time.ticks(apart)) {
            const double x = m_time.at(at_s);
            m_canvas.line({{x, y}, {x, y + 0.4 * m_unit}}, {Ink::Soft, 1, {}});
            const std::string number = figure(at_s == 0 ? 0 : at_s, step < 1 ? 1 : 0);
            m_canvas.write({words("{} s", number), style},
                           std::clamp(x - 2 * m_unit, m_area.x, m_area.right() - 4 * m_unit),
                           4 * m_unit,
                           y + 1.4 * m_unit,
                           Align::Middle);
        }
    }

    void labelCursor() {
        m_canvas.begin("cursor");
        const double x = m_time.at(m_site.moment.at_s);
        const auto put = [&](const std::string& text, double y, const Box& within) {
            place(m_canvas,
                  {.lines = {{text, strong(1.1 * m_unit)}},
                   .about = Box{x, y, 0, 0}.grown(0.3 * m_unit),
                   .within = within,
                   .gap = 0.25 * m_unit,
                   .reach = 12 * m_unit,
                   .sides = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}}});
        };
        put(volts(m_frame.controller_v), m_volts.within(m_frame.controller_v), plotBox());
        put(words("{} A", figure(m_frame.amps[m_subject], 1)),
            m_amps.within(m_frame.amps[m_subject]),
            plotBox());
        m_canvas.write({seconds(m_site.moment.at_s), strong(1.1 * m_unit)},
                       m_area.x,
                       m_area.width,
                       m_area.y + 1.25 * m_unit,
                       Align::Right);
    }

    /// Above its flag, of flags too close to each other in one line; what finds no room there is
    /// left to the flag alone.
    void labelFlags() {
        m_canvas.begin("flags");
        const std::vector<StartEvent> events = shownEvents();
        for (std::size_t i = 0; i < events.size();) {
            const double left = m_time.at(events[i].at_s);
            std::string text = happeningWords(events[i].what);
            double right = left;
            for (++i; i < events.size() && m_time.at(events[i].at_s) - right < 1.6 * m_unit; ++i) {
                text += ", " + happeningWords(events[i].what);
                right = m_time.at(events[i].at_s);
            }
            labelFlag(text, {left, m_volts_box.y - 0.9 * m_unit, right - left + 0.6 * m_unit, 0});
        }
    }

    void labelFlag(const std::string& text, const Box& about) {
        const Box zone{m_area.x,
                       m_area.y + 1.7 * m_unit,
                       m_area.width,
                       m_volts_box.y - 0.3 * m_unit - m_area.y - 1.7 * m_unit};
        place(m_canvas,
              {.lines = {{text, common(0.95 * m_unit)}},
               .about = about,
               .within = zone,
               .gap = 0.25 * m_unit,
               .reach = 3.2 * m_unit,
               .sides = {{0, -1}, {1, 0}, {-1, 0}}});
    }

    void labelThresholds() {
        m_canvas.begin("thresholds");
        const auto put = [&](const char* text, const char* brief, double level_v, Ink ink) {
            const double y = m_volts.at(level_v);
            const Style style{0.95 * m_unit, false, ink};
            const Wish wish{.about = {m_volts_box.x, y, m_volts_box.width, 0},
                            .within = plotBox(),
                            .gap = 0.2 * m_unit,
                            .reach = 4 * m_unit,
                            .sides = {{0, 1}, {0, -1}}};
            placeFirst(m_canvas,
                       wish,
                       std::vector<std::vector<TextLine>>{{{words(text, volts(level_v)), style}},
                                                          {{words(brief, volts(level_v)), style}}});
        };
        put(phrase("low-voltage cut-out {}"),
            phrase("cut-out {}"),
            m_verdict.cut_out_v,
            Ink::Warning);
        put(phrase("low-voltage cut-in {}"), phrase("cut-in {}"), m_verdict.cut_in_v, Ink::Soft);
    }

    void labelHeldOff() {
        if (m_held.empty() || !m_verdict.held_off_lowest_v)
            return;
        const auto lowest = std::ranges::max_element(m_held, {}, &Point::y);
        const Style style = common(0.95 * m_unit);
        const Wish wish{.about = Box{lowest->x, lowest->y, 0, 0},
                        .within = m_volts_box,
                        .gap = 0.3 * m_unit,
                        .reach = 10 * m_unit,
                        .sides = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
        const std::string value = volts(*m_verdict.held_off_lowest_v);
        placeFirst(
            m_canvas,
            wish,
            std::vector<std::vector<TextLine>>{{{words("if it were held on: {}", value), style}},
                                               {{words("held on: {}", value), style}}});
    }

    const Site& m_site;
    Canvas& m_canvas;
    double m_unit;
    const Start& m_start;
    const Verdict& m_verdict;
    const Start* m_held_off;
    std::vector<OtherCurve> m_others;
    Frame m_frame;
    std::size_t m_subject;
    Box m_area;
    Box m_volts_box;
    Box m_amps_box;
    Box m_meter_box;
    Scale m_time;
    Scale m_volts;
    Scale m_amps;
    std::vector<Point> m_held;
};

} // namespace

void drawTimeChart(const Site& site) {
    TimeChart(site).draw();
}

} // namespace ebbline::drawing
