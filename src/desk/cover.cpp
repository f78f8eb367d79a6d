// SPDX-License-Identifier: MIT
// What lies over the pictures.
#include "cover.h"

#include "file_list.h"
#include "why_list.h"

#include "ebbline/canvas.h"
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
    KeyHelp{"P", phrase("pace: stretched, slower than life, as in life, faster, event by event")},
    KeyHelp{phrase("drag"), phrase("in a chart: to any moment; on a card: it turns")},
    KeyHelp{
        "I K",
        phrase("play round: the stretch begins here, ends here (or drag with the right button)")},
    KeyHelp{"Q A", phrase("cable thicker, thinner")},
    KeyHelp{"W S", phrase("run longer, shorter")},
    KeyHelp{"E D", phrase("battery fuller, emptier")},
    KeyHelp{"R F", phrase("charger or engine on, off")},
    KeyHelp{"T G", phrase("worst joint better, worse")},
    KeyHelp{"U J", phrase("warmer, colder")},
    KeyHelp{phrase("Backspace"), phrase("everything as drawn again")},
    KeyHelp{"C", phrase("class: hide all that tells, or show it again")},
    KeyHelp{phrase("Enter"), phrase("class: reveal one stage more")},
    KeyHelp{"0 … 9", phrase("class: how many hands were up, digit by digit")},
    KeyHelp{"H", phrase("paper for a class: a sheet with empty boxes, and its answers")},
    KeyHelp{phrase("Page up, down"), phrase("lesson: the step before, the next step")},
    KeyHelp{"M",
            phrase("meter: two leads on any two terminals; Tab moves one (Shift: back), X takes "
                   "the other")},
    KeyHelp{
        "Z V",
        phrase("part of the pictures larger, smaller (wheel; drag to move it; Esc: all of it)")},
    KeyHelp{"L", phrase("list of scenes and lessons; B lays one under, as an outline")},
    KeyHelp{"O", phrase("for a room: one picture, large")},
    KeyHelp{"N", phrase("light or dark paper")},
    KeyHelp{"+ −", phrase("everything larger, smaller")},
    KeyHelp{"Y", phrase("words: what they mean and why they matter (or lay the pointer on one)")},
    KeyHelp{"?", phrase("this sheet, or away with it")},
    KeyHelp{phrase("Esc"), phrase("away with what was put there last")},
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
    const bool is_whole = desk.cover() == Cover::Words;
    const double width = is_whole ? drawing.width : std::min(60 * unit, drawing.width - 2 * unit);
    const double height =
        is_whole ? drawing.height : std::min(43 * unit, drawing.height - 2 * unit);
    const Box box{(drawing.width - width) / 2, (drawing.height - height) / 2, width, height};
    clearUnder(drawing, box);
    canvas.begin("cover");
    canvas.polygon(drawing::rectangle(box), Ink::Sheet, Pen{Ink::Line, 1.6, {}});
    sheet.spots.clear();
    if (desk.cover() == Cover::Files)
        drawFiles(canvas, sheet, desk, box, unit);
    else if (desk.cover() == Cover::Words)
        drawWhys(canvas, box, unit);
    else
        drawHelp(canvas, box, unit);
    std::ranges::move(canvas.take().groups, std::back_inserter(drawing.groups));
}

} // namespace ebbline::desk
