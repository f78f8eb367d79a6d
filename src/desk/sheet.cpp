// SPDX-License-Identifier: MIT
// The whole window as one drawing: pictures, below them what can be played and turned, over them
// what the pointer lies on.
#include "caption.h"
#include "class_view.h"
#include "cover.h"
#include "foot.h"
#include "hover.h"
#include "overlay.h"

#include "ebbline/canvas.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ebbline::desk {
namespace {

using drawing::Canvas;

/// Before there is anything to show.
Drawing drawWaiting(const Desk& desk, const View& view, double unit) {
    Canvas canvas(view);
    canvas.begin("page");
    canvas.ground(canvas.area(), Ink::Desk);
    const std::string text =
        desk.obstacle().empty() ? words("The start is being simulated.") : desk.obstacle();
    double y = 3 * unit;
    for (const drawing::TextLine& line :
         drawing::wrapped(text, drawing::common(1.4 * unit), view.width - 4 * unit)) {
        canvas.write(line, {2 * unit, y});
        y += 2 * unit;
    }
    return canvas.take();
}

/// Another run of it, or the worst moment of this one once it has been seen; and what is laid
/// under.
std::vector<Outline> outlinesOf(const Desk& desk) {
    std::vector<Outline> outlines;
    const double worst_s = desk.player().timeline().worst_s;
    if (desk.before() != nullptr && !desk.isOld())
        outlines.push_back({&desk.before()->inquiry, desk.player().at(), words("before")});
    else if (desk.player().wasAtWorst() && desk.player().at() != worst_s)
        outlines.push_back({&desk.now()->inquiry, worst_s, words("worst")});
    if (const auto under = desk.under())
        outlines.push_back(*under);
    return outlines;
}

Drawing drawPictures(const Desk& desk, const View& view, double unit) {
    Moment moment{desk.now()->inquiry, desk.player().at(), outlinesOf(desk)};
    if (desk.leads())
        moment.meter = traceOf(moment.examination(), *desk.leads())
                           .value_or(MeterTrace{nameOf(desk.installation(), *desk.leads())});
    moment.is_watched = true;
    if (desk.revealed() != Reveal::Everything)
        return drawClass(desk, moment, view, unit);
    const LessonLook look =
        desk.lesson() == nullptr ? LessonLook::Page : desk.lesson()->steps[desk.step()].look;
    if (desk.isRoom() || look == LessonLook::Room)
        return drawing::room(moment, view);
    switch (look) {
    case LessonLook::Plan:
        return drawing::plan(moment, view);
    case LessonLook::Gap:
        return drawing::gapChart(moment, view);
    case LessonLook::Time:
        return drawing::timeChart(moment, view);
    default:
        return drawing::page(moment, view);
    }
}

/// The ground of the pictures goes on above and below them.
void stretchGround(Drawing& drawing, double height) {
    for (Group& group : drawing.groups)
        if (group.role == "page")
            for (auto& item : group.items)
                if (auto* shape = std::get_if<Shape>(&item))
                    shape->points = drawing::rectangle({0, 0, drawing.width, height});
    drawing.height = height;
}

/// What stands above and below the pictures covers what has become too large for them.
void magnify(Sheet& sheet, const Desk& desk) {
    if (!desk.magnifier().isOn())
        return;
    desk.magnifier().show(sheet.drawing, sheet.pictures);
    Canvas canvas({sheet.drawing.width, sheet.drawing.height, sheet.drawing.paper});
    const Box& box = sheet.pictures;
    canvas.begin("page");
    canvas.ground({0, 0, box.width, box.y}, Ink::Desk);
    canvas.ground({0, box.bottom(), box.width, sheet.drawing.height - box.bottom()}, Ink::Desk);
    std::ranges::move(canvas.take().groups, std::back_inserter(sheet.drawing.groups));
}

} // namespace

std::optional<TimeAxis> Sheet::axisAt(Point at) const {
    for (const TimeAxis& axis : drawing.time_axes)
        if (pictures.contains({at.x, at.y, 0, 0}) && axis.box.contains({at.x, at.y, 0, 0}))
            return axis;
    return std::nullopt;
}

std::optional<Terminal> Sheet::terminalAt(Point at) const {
    constexpr double finger = 14; // pixels
    std::optional<Terminal> found;
    double nearest = finger;
    for (const TerminalPlace& place : drawing.terminals)
        if (const double away = std::hypot(place.at.x - at.x, place.at.y - at.y); away <= nearest) {
            nearest = away;
            found = place.terminal;
        }
    return found;
}

Sheet draw(const Desk& desk, const View& view) {
    const double unit = drawing::unitFor(view);
    Sheet sheet;
    if (desk.now() == nullptr) {
        sheet.drawing = drawWaiting(desk, view, unit);
    } else {
        const double caption = captionHeight(desk, view.width, unit);
        View pictures = view;
        pictures.height -= foot_units * unit + caption + meterHeight(desk, unit);
        sheet.pictures = {0, caption, pictures.width, pictures.height};
        sheet.drawing = drawPictures(desk, pictures, unit);
        lower(sheet.drawing, caption);
        stretchGround(sheet.drawing, view.height);
        magnify(sheet, desk);
        drawLoop(sheet, desk, unit);
        drawMeter(sheet, desk, unit);
        drawCaption(sheet.drawing, desk, unit);
        drawFoot(sheet, desk, unit);
        if (desk.pointer() && desk.revealed() == Reveal::Everything)
            drawHover(sheet, desk, unit);
    }
    if (desk.cover() != Cover::None)
        drawCover(sheet, desk, unit);
    return sheet;
}

} // namespace ebbline::desk
