// SPDX-License-Identifier: MIT
// What lies over the pictures.
#include "cover.h"

#include "ebbline/canvas.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <variant>

namespace ebbline::desk {
namespace {

using drawing::Canvas;
using drawing::Pen;

/// One key and what it does.
struct KeyHelp {
    const char* keys;
    const char* what;
};

constexpr std::array key_help{
    KeyHelp{phrase("Space"), phrase("play, or halt; it halts by itself at the worst moment")},
    KeyHelp{"← →", phrase("a moment back or on")},
    KeyHelp{"↑ ↓", phrase("the event before, the next event")},
    KeyHelp{phrase("Home End"), phrase("to the beginning, to the worst moment")},
    KeyHelp{"P", phrase("pace: stretched, slower than life, as in life, faster")},
    KeyHelp{phrase("drag"), phrase("in the time chart: to any moment")},
    KeyHelp{"Q A", phrase("cable thicker, thinner")},
    KeyHelp{"W S", phrase("run longer, shorter")},
    KeyHelp{"E D", phrase("battery fuller, emptier")},
    KeyHelp{"R F", phrase("charger or engine on, off")},
    KeyHelp{"T G", phrase("worst joint better, worse")},
    KeyHelp{"U J", phrase("warmer, colder")},
    KeyHelp{phrase("Backspace"), phrase("everything as drawn again")},
    KeyHelp{"C", phrase("class: hide all that tells, or show it again")},
    KeyHelp{phrase("Enter"), phrase("class: reveal one stage more")},
    KeyHelp{"0 … 9", phrase("class: how many hands were up")},
    KeyHelp{phrase("Page up, down"), phrase("lesson: the step before, the next step")},
    KeyHelp{"L", phrase("list of scenes and lessons")},
    KeyHelp{"O", phrase("for a room: one picture, large")},
    KeyHelp{"N", phrase("light or dark paper")},
    KeyHelp{"+ −", phrase("everything larger, smaller")},
    KeyHelp{"?", phrase("this sheet, or away with it")},
};

void drawHelp(Canvas& canvas, const Box& box, double unit) {
    const double left = box.x + 1.5 * unit;
    double y = box.y + 2.2 * unit;
    canvas.write({words("Keys"), drawing::strong(1.4 * unit)}, {left, y});
    const auto caution = drawing::wrapped(words("Work on a live installation only with care: "
                                                "isolate before unplugging, and follow local "
                                                "codes."),
                                          drawing::quiet(0.9 * unit),
                                          box.width - 3 * unit);
    const Box below = drawing::sizeOf(caution);
    const double line = (box.bottom() - y - 2.4 * unit - below.height) / key_help.size();
    y += 0.6 * unit + line;
    std::vector<drawing::TextLine> keys_column;
    for (const auto& [keys, what] : key_help)
        keys_column.push_back({words(keys), drawing::strong(unit)});
    const double from = left + drawing::sizeOf(keys_column).width + 1.5 * unit;
    for (const auto& [keys, what] : key_help) {
        canvas.write({words(keys), drawing::strong(unit)}, {left, y});
        canvas.write({drawing::shortened(words(what), unit, false, box.right() - from - unit),
                      drawing::common(unit)},
                     {from, y});
        y += line;
    }
    canvas.write(caution,
                 {left, box.bottom() - 0.7 * unit - below.height, box.width, below.height},
                 drawing::Align::Left);
}

std::string nameOf(const Choice& choice) {
    return text::escapeControls(choice.path.filename().string());
}

double nameWidth(const std::vector<Choice>& choices, double unit) {
    std::vector<drawing::TextLine> names;
    for (const Choice& choice : choices)
        names.push_back({nameOf(choice), drawing::quiet(0.9 * unit)});
    return drawing::sizeOf(names).width;
}

/// A window of the list around the chosen one; every row can be clicked.
void drawFiles(Canvas& canvas, Sheet& sheet, const Desk& desk, const Box& box, double unit) {
    const double left = box.x + 1.5 * unit;
    double y = box.y + 2.2 * unit;
    canvas.write({words("Open"), drawing::strong(1.4 * unit)}, {left, y});
    const std::string how = words("arrow keys and Enter, or a click");
    canvas.write(
        {how, drawing::quiet(0.9 * unit)}, box.x, box.width - 1.5 * unit, y, drawing::Align::Right);
    y += 0.8 * unit;
    const double row = 1.8 * unit;
    const auto rows = static_cast<std::size_t>(std::max(1.0, (box.bottom() - y - unit) / row));
    const std::size_t count = desk.choices().size();
    const std::size_t first = std::min(desk.chosen() < rows / 2 ? 0 : desk.chosen() - rows / 2,
                                       count - std::min(count, rows));
    const double beside = std::min(nameWidth(desk.choices(), unit), 0.35 * box.width) + unit;
    if (count == 0)
        canvas.write({words("There are no scenes here."), drawing::common(unit)},
                     {left, y + 1.25 * unit});
    for (std::size_t i = first; i < std::min(count, first + rows); ++i, y += row) {
        const Choice& choice = desk.choices()[i];
        const Box place{left - 0.5 * unit, y, box.width - 2 * unit, row};
        if (i == desk.chosen())
            canvas.polygon(drawing::rectangle(place), Ink::Desk, Pen{Ink::Line, 1, {}});
        canvas.write({drawing::shortened(nameOf(choice), 0.9 * unit, false, beside - unit),
                      drawing::quiet(0.9 * unit)},
                     {place.right() - beside, y + 1.25 * unit});
        const std::string title =
            choice.is_lesson ? words("Lesson: {}", choice.title) : choice.title;
        canvas.write({drawing::shortened(
                          text::escapeControls(title), unit, false, place.width - beside - unit),
                      drawing::common(unit)},
                     {left, y + 1.25 * unit});
        sheet.spots.push_back({.box = place, .handle = {}, .direction = 0, .choice = i});
    }
}

bool isCut(const std::variant<Shape, Label>& item, const Box& box) {
    const auto* label = std::get_if<Label>(&item);
    return label != nullptr && box.overlaps(label->box) && !box.contains(label->box);
}

} // namespace

void clearUnder(Drawing& drawing, const Box& box) {
    for (Group& group : drawing.groups)
        std::erase_if(group.items, [&](const auto& item) { return isCut(item, box); });
}

std::size_t countCuts(const Drawing& drawing, const Box& box) {
    std::ptrdiff_t cuts = 0;
    for (const Group& group : drawing.groups)
        cuts +=
            std::ranges::count_if(group.items, [&](const auto& item) { return isCut(item, box); });
    return static_cast<std::size_t>(cuts);
}

void drawCover(Sheet& sheet, const Desk& desk, double unit) {
    Drawing& drawing = sheet.drawing;
    Canvas canvas({drawing.width, drawing.height, drawing.paper});
    const double width = std::min(50 * unit, drawing.width - 2 * unit);
    const double height = std::min(38 * unit, drawing.height - 2 * unit);
    const Box box{(drawing.width - width) / 2, (drawing.height - height) / 2, width, height};
    clearUnder(drawing, box);
    canvas.begin("cover");
    canvas.polygon(drawing::rectangle(box), Ink::Sheet, Pen{Ink::Line, 1.6, {}});
    sheet.spots.clear();
    if (desk.cover() == Cover::Files)
        drawFiles(canvas, sheet, desk, box, unit);
    else
        drawHelp(canvas, box, unit);
    std::ranges::move(canvas.take().groups, std::back_inserter(drawing.groups));
}

} // namespace ebbline::desk
