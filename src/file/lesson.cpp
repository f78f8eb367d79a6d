// SPDX-License-Identifier: MIT
// A file of a lesson: the scene it goes through, and [[step]] after [[step]].
#include "format.h"
#include "parse.h"
#include "reading.h"

#include "ebbline/file.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <limits>

namespace ebbline::file {
namespace {

constexpr std::size_t most_steps = 200;
constexpr double most_v = 1000;

/// The scene beside the lesson, else in the folder above.
std::filesystem::path findScene(const std::filesystem::path& folder, const std::string& name) {
    const std::filesystem::path beside = folder / name;
    return std::filesystem::exists(beside) ? beside : folder / ".." / name;
}

bool isPlainName(const std::string& name) {
    return !name.empty() && name != "." && name != ".." && name.find('/') == std::string::npos &&
           name.find('\\') == std::string::npos;
}

std::optional<Expectation::Range> takeRange(Fields& fields, const char* key) {
    const toml::node* node = fields.take(key);
    if (node == nullptr)
        return std::nullopt;
    const auto ends = elements(*node);
    // What is no number is less than none.
    const auto number = [&](std::size_t i) {
        constexpr double none = std::numeric_limits<double>::quiet_NaN();
        return ends.size() == 2 ? ends[i]->value<double>().value_or(none) : none;
    };
    const double low = number(0);
    const double high = number(1);
    if (node->is_array() && low >= -most_v && high <= most_v && low < high)
        return Expectation::Range{low, high};
    fields.problems().add(node->source(),
                          words("'{}' wants two numbers, the lesser first: [0.2, 0.9]", key));
    return std::nullopt;
}

Expectation takeExpectation(Fields& step) {
    Expectation expectation;
    const toml::table* table = step.takeTable("expect");
    if (table == nullptr)
        return expectation;
    Fields fields(*table, step.problems());
    expectation.outcome = fields.takeText("outcome");
    expectation.spare_v = takeRange(fields, "spare_v");
    expectation.lost_in = fields.takeText("lost_in");
    expectation.lost_v = takeRange(fields, "lost_v");
    if (expectation.lost_v.has_value() == expectation.lost_in.empty())
        step.problems().add(table->source(), words("'lost_in' and 'lost_v' belong together"));
    fields.finish(phrase("unknown key {} in what a step expects"));
    return expectation;
}

LessonLook takeLook(Fields& fields) {
    static constexpr std::array<std::string_view, 5> names{"page", "plan", "gap", "time", "room"};
    const std::string name = fields.takeText("look");
    const auto found = std::ranges::find(names, name);
    if (name.empty() || found != names.end())
        return name.empty() ? LessonLook::Page : static_cast<LessonLook>(found - names.begin());
    fields.problems().add(fields.take("look")->source(),
                          words("'look' wants one of page, plan, gap, time, room"));
    return LessonLook::Page;
}

bool takeFlag(Fields& fields, const char* key) {
    const toml::node* node = fields.take(key);
    if (node == nullptr)
        return false;
    if (const auto flag = node->value_exact<bool>())
        return *flag;
    fields.problems().add(node->source(), words("'{}' wants true or false", key));
    return false;
}

void readStep(Reading& reading, const toml::table& block, Lesson& lesson) {
    constexpr double latest_s = 3600;
    Fields fields(block, reading.problems);
    LessonStep step;
    step.say = fields.requireText("say").value_or("");
    step.ask = fields.takeText("ask");
    step.answer = fields.takeText("answer");
    if (step.ask.empty() != step.answer.empty())
        reading.problems.add(block.source(), words("'ask' and 'answer' belong together"));
    for (Set& change : takeCaseChanges(reading, fields))
        step.changes.emplace_back(std::move(change));
    step.look = takeLook(fields);
    step.hides = takeFlag(fields, "hide");
    step.plays = takeFlag(fields, "play");
    step.at_s = fields.takeNumber("at_s", -1, latest_s);
    step.expect = takeExpectation(fields);
    fields.finish(phrase("unknown key {} in a step"));
    lesson.steps.push_back(std::move(step));
}

} // namespace

LessonFile readLesson(const std::filesystem::path& path, const Catalogues& catalogues) {
    const std::string text = readBytes(path);
    Problems problems(path.string(), text);
    LessonFile made;
    const auto parsed = parse(text, problems);
    if (parsed && fitsFormat(parsed->table, "lesson", problems)) {
        Fields top(parsed->table, problems);
        top.skip("ebbline");
        top.skip("what");
        made.lesson.title = top.requireText("title").value_or("");
        const auto scene = top.requireText("scene");
        if (scene && !isPlainName(*scene))
            problems.add(
                top.take("scene")->source(),
                words("'scene' wants the name of a file beside the lesson or one folder up"));
        problems.throwIfAny();
        made.document = read(findScene(path.parent_path(), scene.value_or("")), catalogues);
        Reading reading{.problems = problems,
                        .catalogues = made.document.catalogues,
                        .installation = made.document.installation};
        top.eachTable(
            "step",
            [&](const toml::table& block) { readStep(reading, block, made.lesson); },
            most_steps);
        top.finish(phrase("unknown key {} in a lesson"));
        if (made.lesson.steps.empty() && !problems.any())
            problems.add(1, 1, words("a lesson without steps"));
    }
    problems.throwIfAny();
    return made;
}

} // namespace ebbline::file
