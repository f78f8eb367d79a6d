// SPDX-License-Identifier: MIT
// What lies over the pictures.
#include "cover.h"

#include "ebbline/canvas.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <iterator>

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
    const double line = (box.bottom() - y - 3.4 * unit) / key_help.size();
    y += 0.6 * unit + line;
    for (const auto& [keys, what] : key_help) {
        canvas.write({words(keys), drawing::strong(unit)}, {left, y});
        const double from = left + 7.5 * unit;
        canvas.write({drawing::shortened(words(what), unit, false, box.right() - from - unit),
                      drawing::common(unit)},
                     {from, y});
        y += line;
    }
    canvas.write({drawing::shortened(words("Work on a live installation only with care: isolate "
                                           "before unplugging, and follow local codes."),
                                     0.9 * unit,
                                     false,
                                     box.width - 3 * unit),
                  drawing::quiet(0.9 * unit)},
                 {left, box.bottom() - 0.9 * unit});
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
    if (count == 0)
        canvas.write({words("There are no scenes here."), drawing::common(unit)},
                     {left, y + 1.25 * unit});
    for (std::size_t i = first; i < std::min(count, first + rows); ++i, y += row) {
        const Choice& choice = desk.choices()[i];
        const Box place{left - 0.5 * unit, y, box.width - 2 * unit, row};
        if (i == desk.chosen())
            canvas.polygon(drawing::rectangle(place), Ink::Desk, Pen{Ink::Line, 1, {}});
        const std::string name = choice.path.filename().string();
        const double beside = std::min(16 * unit, 0.35 * place.width);
        canvas.write(
            {drawing::shortened(text::escapeControls(name), 0.9 * unit, false, beside - unit),
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

} // namespace

void drawCover(Sheet& sheet, const Desk& desk, double unit) {
    Drawing& drawing = sheet.drawing;
    Canvas canvas({drawing.width, drawing.height, drawing.paper});
    const double width = std::min(46 * unit, drawing.width - 2 * unit);
    const double height = std::min(38 * unit, drawing.height - 2 * unit);
    const Box box{(drawing.width - width) / 2, (drawing.height - height) / 2, width, height};
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
