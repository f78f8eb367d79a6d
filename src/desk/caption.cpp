// SPDX-License-Identifier: MIT
// What a lesson says, above the pictures.
#include "caption.h"

#include "ebbline/canvas.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <iterator>

namespace ebbline::desk {
namespace {

using drawing::Style;
using drawing::TextLine;

constexpr double line_height = 1.35; // of the size of its text

/// Everything that is said, line by line; three texts at most.
std::vector<TextLine> linesOf(const Desk& desk, double width, double unit) {
    const Lesson& lesson = *desk.lesson();
    const LessonStep& step = lesson.steps[desk.step()];
    const bool tells = desk.revealed() == Reveal::Everything;
    std::vector<TextLine> lines;
    const auto add = [&](const std::string& text, const Style& style) {
        for (TextLine& line :
             drawing::wrapped(text::escapeControls(text), style, width - 2.4 * unit))
            lines.push_back(std::move(line));
    };
    const std::string place = words("step {} of {}", desk.step() + 1, lesson.steps.size());
    add(tells ? lesson.title + " · " + place : place, drawing::quiet(unit));
    add(step.say, drawing::common(1.35 * unit));
    if (!step.ask.empty())
        add(step.ask, drawing::strong(1.35 * unit));
    if (desk.isAnswered() && !step.answer.empty())
        add(step.answer, drawing::common(1.35 * unit));
    return lines;
}

} // namespace

double captionHeight(const Desk& desk, double width, double unit) {
    if (desk.lesson() == nullptr)
        return 0;
    double height = 1.1 * unit;
    for (const TextLine& line : linesOf(desk, width, unit))
        height += line_height * line.style.size;
    return height;
}

void drawCaption(Drawing& drawing, const Desk& desk, double unit) {
    if (desk.lesson() == nullptr)
        return;
    drawing::Canvas canvas({drawing.width, drawing.height, drawing.paper});
    canvas.begin("caption");
    double y = 0.5 * unit;
    for (const TextLine& line : linesOf(desk, drawing.width, unit)) {
        y += line_height * line.style.size;
        canvas.write(line, {1.2 * unit, y - 0.25 * line.style.size});
    }
    std::ranges::move(canvas.take().groups, std::back_inserter(drawing.groups));
}

} // namespace ebbline::desk
