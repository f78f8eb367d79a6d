// SPDX-License-Identifier: MIT
// What is laid over the pictures without covering them.
#include "overlay.h"

#include "ebbline/canvas.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <iterator>

namespace ebbline::desk {
namespace {

using drawing::Canvas;
using drawing::Pen;

Canvas canvasOver(const Drawing& drawing) {
    return Canvas({drawing.width, drawing.height, drawing.paper});
}

void append(Drawing& drawing, Canvas& canvas) {
    std::ranges::move(canvas.take().groups, std::back_inserter(drawing.groups));
}

/// A plus or a minus on a disc; the one in hand has a thicker rim.
void drawLead(Canvas& canvas, Point at, bool is_plus, bool is_in_hand, double unit) {
    const double radius = 0.62 * unit;
    const double arm = 0.34 * unit;
    const Pen sign{Ink::Line, 0.14 * unit, {}};
    canvas.polygon(drawing::circle(at, radius),
                   Ink::Sheet,
                   Pen{Ink::Line, (is_in_hand ? 0.26 : 0.13) * unit, {}});
    canvas.line({{at.x - arm, at.y}, {at.x + arm, at.y}}, sign);
    if (is_plus)
        canvas.line({{at.x, at.y - arm}, {at.x, at.y + arm}}, sign);
}

void drawLeads(Canvas& canvas, const Drawing& drawing, const Leads& leads, double unit) {
    canvas.begin("leads");
    for (const TerminalPlace& place : drawing.terminals)
        canvas.polygon(drawing::circle(place.at, 0.24 * unit), Ink::Sheet, Pen{Ink::Line, 1, {}});
    for (const TerminalPlace& place : drawing.terminals) {
        if (place.terminal == leads.minus)
            drawLead(canvas, place.at, false, leads.holds_minus, unit);
        if (place.terminal == leads.plus)
            drawLead(canvas, place.at, true, !leads.holds_minus, unit);
    }
}

double widthOf(const std::string& text, const drawing::Style& style) {
    return drawing::sizeOf(std::vector<drawing::TextLine>{{text, style}}).width;
}

/// Bold, and as large as wanted where there is room for it.
drawing::Style fitting(const std::string& text, double size, double room) {
    const drawing::Style wanted = drawing::strong(size);
    return drawing::strong(size * std::min(1.0, room / widthOf(text, wanted)));
}

std::string signedVolts(double volts) {
    std::string digits = text::fixed(volts, 2);
    text::replaceAll(digits, "-", "−");
    return digits;
}

std::string readingWords(const Desk& desk, const Moment& moment) {
    const Leads& leads = *desk.leads();
    const Network& network = moment.examination().network;
    const auto trace = traceOf(moment.examination(), leads);
    if (!trace)
        return words("{}: nothing to read, no wiring joins the two",
                     nameOf(network.installation, leads));
    const auto now_v =
        readingOf(network, start::frameAt(moment.examination().start, moment.at_s), leads);
    const LeadExtremes extremes = extremesOf(moment.examination().start, *trace, moment.at_s);
    return words("{}: {} V now, lowest {} V, highest {} V in this try",
                 trace->name,
                 signedVolts(now_v.value_or(0)),
                 signedVolts(extremes.lowest_v),
                 signedVolts(extremes.highest_v));
}

} // namespace

void drawLoop(Sheet& sheet, const Desk& desk, double unit) {
    const auto& loop = desk.player().loop();
    if (!loop)
        return;
    Canvas canvas = canvasOver(sheet.drawing);
    canvas.begin("loop");
    for (const TimeAxis& axis : sheet.drawing.time_axes) {
        const double left = axis.xAt(loop->from_s);
        const double right = axis.xAt(loop->to_s);
        const double y = axis.box.bottom() + 0.4 * unit;
        const Pen pen{Ink::Line, 0.22 * unit, {}};
        if (!axis.is_scale || !sheet.pictures.contains({left, y, right - left, 0}))
            continue; // or enlarged beyond the edge
        canvas.line({{left, y - 0.4 * unit}, {left, y}, {right, y}, {right, y - 0.4 * unit}}, pen);
    }
    append(sheet.drawing, canvas);
}

double meterHeight(const Desk& desk, double unit) {
    return desk.leads() && desk.revealed() == Reveal::Everything ? 1.9 * unit : 0;
}

void drawMeter(Sheet& sheet, const Desk& desk, double unit) {
    if (meterHeight(desk, unit) == 0)
        return;
    Canvas canvas = canvasOver(sheet.drawing);
    drawLeads(canvas, sheet.drawing, *desk.leads(), unit);
    const double y = sheet.pictures.bottom() + 1.15 * unit;
    const double left = 1.2 * unit;
    const double width = sheet.drawing.width - 2 * left;
    canvas.begin("meter");
    const std::string reading = readingWords(desk, {desk.now()->inquiry, desk.player().at()});
    const drawing::Style style = fitting(reading, 1.15 * unit, width);
    canvas.write({drawing::shortened(reading, style.size, true, width + 1), style}, {left, y});
    const drawing::Style quiet = drawing::quiet(0.9 * unit);
    const std::string how =
        words("Tab, or a click: lead in hand to another terminal · X: other lead");
    if (widthOf(reading, style) + widthOf(how, quiet) + 2 * unit < width)
        canvas.write({how, quiet}, left, width, y, drawing::Align::Right);
    append(sheet.drawing, canvas);
}

} // namespace ebbline::desk
