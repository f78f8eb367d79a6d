// SPDX-License-Identifier: MIT
// The two lines of the gap chart and what lies between them.
#include "gap.h"

#include "geometry.h"
#include "placer.h"
#include "sentences.h"

#include "ebbline/words.h"

#include <algorithm>
#include <limits>

namespace ebbline::drawing {
namespace {

/// Volts of the plus side at the fridge against battery minus, in one frame.
double plusAtFridge(const SupplyLoop& loop, const Frame& frame) {
    double volts_left = frame.source_v - frame.volts[static_cast<std::size_t>(loop.battery)];
    for (const Step& step : loop.out)
        volts_left -= step.sign * frame.volts[static_cast<std::size_t>(step.element)];
    return volts_left;
}

double heightAt(const std::vector<Point>& line, double x) {
    for (std::size_t i = 1; i < line.size(); ++i)
        if (x <= line[i].x && line[i].x > line[i - 1].x)
            return between(line[i - 1], line[i], (x - line[i - 1].x) / (line[i].x - line[i - 1].x))
                .y;
    return line.back().y;
}

/// The polygon between the lines from one place to another.
std::vector<Point> slice(const GapLines& lines, double from, double to) {
    std::vector<Point> points;
    const auto add = [&](const std::vector<Point>& line) {
        std::vector<Point> side{{from, heightAt(line, from)}};
        for (const Point point : line)
            if (point.x > from && point.x < to)
                side.push_back(point);
        side.push_back({to, heightAt(line, to)});
        return side;
    };
    points = add(lines.plus);
    const std::vector<Point> lower = add(lines.minus);
    points.insert(points.end(), lower.rbegin(), lower.rend());
    return points;
}

} // namespace

Scale findVoltScale(const Moment& moment, double top, double bottom) {
    const Examination& examination = moment.examination();
    const double cut_out_v = examination.verdict.cut_out_v;
    double high_v = cut_out_v + 0.5;
    double low_v = cut_out_v;
    const auto include = [&](const Start& start) {
        double until_s = start.attempts.empty() ? start.horizon_s : start.attempts.front().end_s;
        for (const StartEvent& event : start.events)
            if (event.what == Happening::FuseOpens)
                until_s = std::min(until_s, event.at_s - 0.01); // after that nothing arrives
        for (const Frame& frame : start.frames) {
            high_v = std::max(high_v, frame.source_v);
            if (!examination.network.loop || start.attempts.empty() || frame.at_s > until_s ||
                frame.at_s < start.attempts.front().begin_s)
                continue;
            const double plus_v = plusAtFridge(*examination.network.loop, frame);
            low_v = std::min(low_v, plus_v);
            high_v = std::max(high_v, plus_v); // a charging source may lie on the way
        }
    };
    include(examination.start);
    if (examination.held_off)
        include(*examination.held_off);
    // A supply that collapses would leave no room for what matters.
    low_v = std::max(low_v, cut_out_v - (high_v - cut_out_v));
    const double air_v = 0.04 * (high_v - low_v);
    return {low_v - air_v, high_v + air_v, bottom, top};
}

GapLines makeLines(const Columns& columns, const Figures& figures, const Scale& scale) {
    GapLines lines;
    double plus_v = figures.source_v;
    double minus_v = figures.cut_out_v;
    lines.plus.push_back({columns.out.front().x, scale.within(plus_v)});
    lines.minus.push_back({columns.out.front().x, scale.within(minus_v)});
    for (const Column& column : columns.out) {
        plus_v -= column.out_v;
        lines.plus.push_back({column.x + column.width, scale.within(plus_v)});
        if (!columns.shared)
            continue;
        minus_v += column.back_v;
        lines.minus.push_back({column.x + column.width, scale.within(minus_v)});
    }
    for (const Column& column : columns.back) {
        minus_v += column.back_v;
        lines.minus.push_back({column.x + column.width, scale.within(minus_v)});
    }
    return lines;
}

double crossingOf(const GapLines& lines) {
    for (std::size_t i = 1; i < std::min(lines.plus.size(), lines.minus.size()); ++i) {
        const double before = lines.minus[i - 1].y - lines.plus[i - 1].y;
        const double after = lines.minus[i].y - lines.plus[i].y;
        if (after < 0)
            return before <= 0
                       ? lines.plus[i - 1].x
                       : between(lines.plus[i - 1], lines.plus[i], before / (before - after)).x;
    }
    return std::numeric_limits<double>::infinity();
}

void drawStations(Canvas& canvas, const Columns& columns, const GapLines& lines, const Box& plot) {
    const Pen thin{Ink::Faint, 0.7, {}};
    for (std::size_t i = 0; i < columns.out.size(); ++i) {
        const double x = columns.out[i].x + columns.out[i].width;
        const double foot = columns.shared ? plot.bottom() : lines.plus[i + 1].y;
        canvas.line({{x, plot.y}, {x, foot}}, thin);
    }
    for (std::size_t i = 0; i < columns.back.size(); ++i) {
        const double x = columns.back[i].x + columns.back[i].width;
        canvas.line({{x, lines.minus[i + 1].y}, {x, plot.bottom()}}, thin);
    }
}

void drawGap(Canvas& canvas, const GapLines& lines, bool shared, double unit) {
    const double left = lines.plus.front().x;
    const double right = lines.plus.back().x;
    if (!shared) {
        // Only at the fridge do the two sides face each other.
        const double from = right - 0.9 * unit;
        const std::vector<Point> end{{from, lines.plus.back().y},
                                     {right, lines.plus.back().y},
                                     {right, lines.minus.back().y},
                                     {from, lines.minus.back().y}};
        const bool is_short = lines.minus.back().y < lines.plus.back().y;
        canvas.polygon(end, is_short ? std::nullopt : std::optional(Ink::Spare), std::nullopt);
        if (is_short)
            canvas.hatch(end, Ink::Warning, 0.5 * unit, 1.4);
        return;
    }
    const double crossing = crossingOf(lines);
    if (crossing > left)
        canvas.polygon(slice(lines, left, std::min(crossing, right)), Ink::Spare, std::nullopt);
    if (crossing < right)
        canvas.hatch(slice(lines, crossing, right), Ink::Warning, 0.5 * unit, 1.4);
}

void writeInGap(Canvas& canvas,
                const GapLines& lines,
                std::span<const TextLine> block,
                double gap) {
    const Box size = sizeOf(block);
    for (double x = lines.plus.front().x + gap; x + size.width < lines.plus.back().x; x += 6) {
        const double top = std::max(heightAt(lines.plus, x), heightAt(lines.plus, x + size.width));
        const double bottom =
            std::min(heightAt(lines.minus, x), heightAt(lines.minus, x + size.width));
        const Box box{x, (top + bottom - size.height) / 2, size.width, size.height};
        if (box.y < top + gap / 2 || !canvas.isFree(box.grown(0.3 * gap)))
            continue;
        canvas.write(block, box, Align::Left);
        return;
    }
}

void labelLine(Canvas& canvas,
               const std::vector<Point>& line,
               bool is_plus,
               const Style& style,
               const Box& within) {
    std::size_t widest = 1;
    for (std::size_t i = 1; i < line.size(); ++i)
        if (line[i].x - line[i - 1].x > line[widest].x - line[widest - 1].x)
            widest = i;
    // To the right of a point on it lies the outer side of either line.
    for (const double share : {0.4, 0.3, 0.5, 0.2, 0.6, 0.1, 0.7}) {
        const Point point = between(line[widest - 1], line[widest], share);
        const Wish wish{
            .lines = {{is_plus ? words("plus side falls") : words("minus side rises"), style}},
            .about = {point.x, point.y, 0, 0},
            .within = within,
            .gap = 0.3 * style.size,
            .reach = 3 * style.size,
            .sides = {{0, is_plus ? -1.0 : 1.0}}};
        if (place(canvas, wish))
            return;
    }
}

std::string endWords(const Figures& figures) {
    if (figures.reversed)
        return words("reversed");
    return figures.spare() < 0 ? words("under cut-out") : words("above cut-out");
}

std::string columnWords(double lost_v) {
    return lost_v < -0.005 ? words("gains {}", volts(-lost_v)) : volts(lost_v);
}

void drawLines(Canvas& canvas, const GapLines& lines, double width) {
    // In groups of their own, so that they can be found in the picture again.
    canvas.begin("gap-line", "plus");
    canvas.line(lines.plus, {Ink::Line, width, {}});
    canvas.begin("gap-line", "minus");
    canvas.line(lines.minus, {Ink::Line, width, {3 * width, 1.6 * width}});
    canvas.begin("gap-chart");
}

} // namespace ebbline::drawing
