// SPDX-License-Identifier: MIT
// Whether a lesson says what is.
#pragma once

#include "ebbline/lesson.h"
#include "ebbline/study.h"

#include <string>
#include <vector>

namespace ebbline::study {

/// What of an expectation is not so, in the reader's language; empty where all of it holds.
[[nodiscard]] std::string findContradiction(const Expectation& expectation,
                                            const Examination& examination);

/// The same for every step of a lesson, whose scene is `drawn` with its faults. Throws EngineError
/// when a start was not solved.
[[nodiscard]] std::vector<std::string>
checkLesson(Engine& engine, const Lesson& lesson, const Installation& drawn, const Models& models);

} // namespace ebbline::study
