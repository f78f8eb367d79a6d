// SPDX-License-Identifier: MIT
// Whether a lesson says what is.
#include "ebbline/lesson_check.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <cmath>
#include <optional>

namespace ebbline::study {
namespace {

/// Volts lost in a run, part or joint of the supply loop at the lowest moment.
std::optional<double> lostIn(const Examination& examination, const std::string& thing) {
    if (!examination.start.ledger)
        return std::nullopt;
    std::optional<double> lost_v;
    for (const LedgerRow& row : examination.start.ledger->rows)
        for (const Element& element : examination.network.elements)
            if (element.name == row.element &&
                (element.name == thing ||
                 (element.part == thing && element.kind != ElementKind::Joint)))
                lost_v = lost_v.value_or(0) + row.volts;
    return lost_v;
}

std::string compare(const std::string& what,
                    const std::optional<double>& found_v,
                    const Expectation::Range& range) {
    if (found_v && *found_v >= range.low && *found_v <= range.high)
        return "";
    return words("{}: expected {} to {} V, found {}",
                 what,
                 text::fixed(range.low, 2),
                 text::fixed(range.high, 2),
                 found_v ? words("{} V", text::fixed(*found_v, 2)) : words("none"));
}

} // namespace

std::string findContradiction(const Expectation& expectation, const Examination& examination) {
    const std::string outcome(nameOf(examination.start.outcome));
    if (!expectation.outcome.empty() && expectation.outcome != outcome)
        return words("expected '{}', found '{}'", expectation.outcome, outcome);
    if (expectation.spare_v)
        if (std::string said =
                compare(words("to spare"), examination.verdict.headroom_v, *expectation.spare_v);
            !said.empty())
            return said;
    if (expectation.lost_v)
        return compare(words("lost in {}", expectation.lost_in),
                       lostIn(examination, expectation.lost_in),
                       *expectation.lost_v);
    return "";
}

std::vector<std::string>
checkLesson(Engine& engine, const Lesson& lesson, const Installation& drawn, const Models& models) {
    std::vector<std::string> contradictions;
    contradictions.reserve(lesson.steps.size());
    for (const LessonStep& step : lesson.steps)
        contradictions.push_back(findContradiction(
            step.expect,
            runStartAlone(
                engine, installation::apply(drawn, step.changes), models, [](const std::string&) {
                })));
    return contradictions;
}

} // namespace ebbline::study
