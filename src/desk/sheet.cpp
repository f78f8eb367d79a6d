// SPDX-License-Identifier: MIT
// The whole window as one drawing: pictures, below them what can be played and turned, over them
// what the pointer lies on.
#include "caption.h"
#include "cover.h"
#include "foot.h"
#include "hover.h"

#include "ebbline/canvas.h"
#include "ebbline/words.h"

#include <algorithm>
#include <iterator>

namespace ebbline::desk {
namespace {

using drawing::Canvas;
using drawing::Style;

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

/// Another run of it, or the worst moment of this one once it has been seen.
std::optional<Outline> outlineOf(const Desk& desk) {
    if (desk.before() != nullptr && !desk.isOld())
        return Outline{&desk.before()->inquiry, desk.player().at(), words("before")};
    const double worst_s = desk.player().timeline().worst_s;
    if (desk.player().wasAtWorst() && desk.player().at() != worst_s)
        return Outline{&desk.now()->inquiry, worst_s, words("worst")};
    return std::nullopt;
}

/// Whether it is on the way to the fridge that something is lost.
bool isLostOnTheWay(Outcome outcome) {
    return outcome == Outcome::Starts || outcome == Outcome::Trips ||
           outcome == Outcome::SupplyLow || outcome == Outcome::NotPowered;
}

std::string whetherWords(const Start& start) {
    if (start.outcome == Outcome::Starts)
        return words("It starts. Where is most lost on the way?");
    if (start.outcome == Outcome::FuseOpens && start.reached_speed)
        return words("It starts, and then something ends it. What?");
    return isLostOnTheWay(start.outcome) ? words("It does not start. Where is it lost?")
                                         : words("It does not start. Why?");
}

/// What is asked, and what has been revealed of the answer.
std::string classHeading(const Desk& desk) {
    const Inquiry& inquiry = desk.now()->inquiry;
    const Start& start = inquiry.examination.start;
    const std::string& element = inquiry.headline.element;
    if (desk.revealed() == Reveal::Nothing)
        return words("What will this fridge do when it is called?");
    if (desk.revealed() == Reveal::Whether || element.empty())
        return whetherWords(start);
    const std::string name =
        drawing::nameOfThing(inquiry.examination.network.installation, element);
    return isLostOnTheWay(start.outcome) ? words("Look at {}. How much is it?", name)
                                         : words("Look at {}. What of it?", name);
}

/// In one large line, or in smaller ones.
std::vector<drawing::TextLine>
fittingHeading(const std::string& text, double most_width, double unit) {
    const auto lines = [&](double size) {
        return drawing::wrapped(text, {size * unit, true, Ink::Line}, most_width);
    };
    const auto large = lines(2);
    return large.size() == 1 ? large : lines(1.5);
}

/// Everything lower by so much.
void lower(Drawing& drawing, double by) {
    for (Group& group : drawing.groups)
        for (auto& item : group.items)
            if (auto* shape = std::get_if<Shape>(&item)) {
                for (Point& point : shape->points)
                    point.y += by;
            } else if (auto* label = std::get_if<Label>(&item)) {
                label->box.y += by;
                label->baseline_y += by;
            }
    for (TimeAxis& axis : drawing.time_axes)
        axis.box.y += by;
}

/// The installation as an eye sees it, below a question.
Drawing drawClass(const Desk& desk, const Moment& moment, const View& view, double unit) {
    constexpr double heading_units = 4.6;
    View bare = view;
    bare.height -= heading_units * unit;
    bare.bare = true;
    Drawing plan = drawing::plan(moment, bare);
    lower(plan, heading_units * unit);
    std::erase_if(plan.groups, [](const Group& group) { return group.role == "page"; });
    Canvas canvas(view);
    canvas.begin("page");
    canvas.ground(canvas.area(), Ink::Desk);
    canvas.begin("question");
    const auto heading = fittingHeading(classHeading(desk), view.width - 12 * unit, unit);
    const double height = drawing::sizeOf(heading).height;
    canvas.write(heading,
                 {1.2 * unit, (heading_units * unit - height) / 2, view.width, height},
                 drawing::Align::Left);
    if (const auto hands = desk.hands())
        canvas.write({words("hands: {}", *hands), drawing::strong(1.6 * unit)},
                     view.width - 11 * unit,
                     9.8 * unit,
                     3 * unit,
                     drawing::Align::Right);
    Drawing sheet = canvas.take();
    std::ranges::move(plan.groups, std::back_inserter(sheet.groups));
    return sheet;
}

Drawing drawPictures(const Desk& desk, const View& view, double unit) {
    const Moment moment{desk.now()->inquiry, desk.player().at(), outlineOf(desk)};
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

} // namespace

std::optional<TimeAxis> Sheet::axisAt(Point at) const {
    for (const TimeAxis& axis : drawing.time_axes)
        if (axis.box.contains({at.x, at.y, 0, 0}))
            return axis;
    return std::nullopt;
}

Sheet draw(const Desk& desk, const View& view) {
    const double unit = drawing::unitFor(view);
    Sheet sheet;
    if (desk.now() == nullptr) {
        sheet.drawing = drawWaiting(desk, view, unit);
    } else {
        const double caption = captionHeight(desk, view.width, unit);
        View pictures = view;
        pictures.height -= foot_units * unit + caption;
        sheet.drawing = drawPictures(desk, pictures, unit);
        lower(sheet.drawing, caption);
        stretchGround(sheet.drawing, view.height);
        drawCaption(sheet.drawing, desk, unit);
        drawFoot(sheet, desk, unit);
        if (desk.pointer() && desk.revealed() == Reveal::Everything)
            drawHover(sheet.drawing, desk, unit);
    }
    if (desk.cover() != Cover::None)
        drawCover(sheet, desk, unit);
    return sheet;
}

} // namespace ebbline::desk
