// SPDX-License-Identifier: MIT
// What a class sees before it is told.
#include "class_view.h"

#include "ebbline/canvas.h"
#include "ebbline/words.h"

#include <algorithm>
#include <iterator>

namespace ebbline::desk {
namespace {

using drawing::Canvas;

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

} // namespace

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
    for (TerminalPlace& place : drawing.terminals)
        place.at.y += by;
}

Drawing drawClass(const Desk& desk, const Moment& moment, const View& view, double unit) {
    constexpr double heading_units = 4.6;
    View bare = view;
    bare.height -= heading_units * unit;
    bare.bare = true;
    Moment pointed = moment;
    if (desk.revealed() >= Reveal::Where)
        pointed.marked = moment.inquiry.headline.element;
    Drawing plan = drawing::plan(pointed, bare);
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

} // namespace ebbline::desk
