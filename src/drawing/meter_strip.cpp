// SPDX-License-Identifier: MIT
// What a meter shows, as a strip of the time chart.
#include "meter_strip.h"

#include "curve.h"
#include "font.h"
#include "geometry.h"
#include "placer.h"
#include "sentences.h"

#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace ebbline::drawing {
namespace {

constexpr double least_span_v = 0.02; // less is noise of the numbers, not of the wiring

double readingAt(const MeterTrace& trace, double at_s) {
    const auto after = std::ranges::lower_bound(trace.at_s, at_s);
    if (after == trace.at_s.begin())
        return trace.volts.front();
    if (after == trace.at_s.end())
        return trace.volts.back();
    const auto i = static_cast<std::size_t>(after - trace.at_s.begin());
    const double share = (at_s - trace.at_s[i - 1]) / (trace.at_s[i] - trace.at_s[i - 1]);
    return std::lerp(trace.volts[i - 1], trace.volts[i], share);
}

/// From the least to the largest reading that counts, with some air.
Scale scaleOf(const MeterTrace& trace, const MeterStripPlace& place) {
    double low_v = readingAt(trace, place.at_s);
    double high_v = low_v;
    for (std::size_t i = 0; i < trace.volts.size(); ++i)
        if (trace.at_s[i] >= place.from_s && trace.at_s[i] <= place.time.high) {
            low_v = std::min(low_v, trace.volts[i]);
            high_v = std::max(high_v, trace.volts[i]);
        }
    const double air_v = std::max(0.1 * (high_v - low_v), least_span_v / 2);
    return {low_v - air_v, high_v + air_v, place.box.bottom(), place.box.y};
}

/// Smaller where there is too little room.
Style fitting(const std::string& text, double size, double room) {
    return quiet(size * std::min(1.0, room / textWidth(text, size, false)));
}

void drawScale(Canvas& canvas, const Scale& up, const MeterStripPlace& place) {
    const double unit = place.unit;
    const double right = place.box.x - 0.5 * unit;
    const double step = up.tickStep(1.6 * unit);
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    for (const double value : up.ticks(1.6 * unit)) {
        const double y = up.at(value);
        canvas.line({{right, y}, {right + 0.4 * unit, y}}, {Ink::Soft, 1, {}});
        const std::string number = figure(value, decimals);
        const std::string whole = value + step > up.high ? number + " V" : number;
        const double room = right - 0.2 * unit - place.left;
        const bool fits = textWidth(whole, 0.9 * unit, false) <= room;
        canvas.write({fits ? whole : number, fitting(number, 0.9 * unit, room)},
                     place.left,
                     room,
                     y + 0.33 * unit,
                     Align::Right);
    }
}

} // namespace

void drawMeterStrip(Canvas& canvas, const MeterTrace& trace, const MeterStripPlace& place) {
    if (trace.volts.empty() || place.box.height < place.unit)
        return; // nothing to read
    const double unit = place.unit;
    const Scale up = scaleOf(trace, place);
    canvas.begin("meter", "", trace.name);
    const Box& box = place.box;
    canvas.line({{box.x, box.bottom()}, {box.right(), box.bottom()}}, {Ink::Faint, 0.8, {}});
    for (std::vector<Point>& piece :
         clipped(thinned(trace.at_s, trace.volts, place.time, up), box.y, box.bottom()))
        canvas.line(std::move(piece), {Ink::Line, 0.13 * unit, {}});
    const double now_v = readingAt(trace, place.at_s);
    const Point at{place.time.at(place.at_s), up.within(now_v)};
    canvas.polygon(circle(at, 0.32 * unit), Ink::Sheet, Pen{Ink::Line, 1.6, {}});
    drawScale(canvas, up, place);
    drawing::place(canvas,
                   {.lines = {{volts(now_v), strong(1.1 * unit)}},
                    .about = Box{at.x, at.y, 0, 0}.grown(0.3 * unit),
                    .within = box.grown(0.6 * unit),
                    .gap = 0.25 * unit,
                    .reach = 12 * unit,
                    .sides = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}}});
    const Style style = common(0.95 * unit);
    const Wish wish{.about = {box.x, box.y, box.width, 0},
                    .within = {box.x, box.y - 1.4 * unit, box.width, box.height + 1.4 * unit},
                    .gap = 0.1 * unit,
                    .reach = 3 * unit,
                    .sides = {{0, -1}, {0, 1}}};
    placeFirst(
        canvas,
        wish,
        std::vector<std::vector<TextLine>>{{{trace.name, style}}, {{words("meter"), style}}});
}

} // namespace ebbline::drawing
