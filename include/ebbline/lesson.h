// SPDX-License-Identifier: MIT
// A lesson: a scene and steps through it, each with something to say, to change, to ask.
#pragma once

#include "ebbline/installation.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline {

/// What a step must find to be true of its start, so that a lesson never says what is not.
struct Expectation {
    struct Range {
        double low = 0;
        double high = 0;
        bool operator==(const Range&) const = default;
    };
    std::string outcome;          ///< "starts", "trips" ...; empty: any
    std::optional<Range> spare_v; ///< above the cut-out, held off; negative: short
    std::string lost_in;          ///< id of a run, part or joint of the supply loop
    std::optional<Range> lost_v;  ///< in it, at the lowest moment
    bool operator==(const Expectation&) const = default;
};

/// Which picture a step is about.
enum class LessonLook { Page, Plan, Gap, Time, Room };

struct LessonStep {
    std::string say; ///< one or two sentences
    std::string ask; ///< a question to the class; may be empty
    std::string answer;
    std::vector<Change> changes; ///< of the scene as drawn, whatever the steps before changed
    LessonLook look = LessonLook::Page;
    bool hides = false; ///< nothing that tells is shown until it is revealed
    bool plays = false; ///< from the beginning; else it stands at the worst moment, or at `at_s`
    std::optional<double> at_s;
    Expectation expect;
};

struct Lesson {
    std::string title;
    std::vector<LessonStep> steps; ///< at least one
};

} // namespace ebbline
