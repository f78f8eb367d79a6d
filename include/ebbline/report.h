// SPDX-License-Identifier: MIT
// What people and programs read: the text on a terminal, the JSON object.
#pragma once

#include "ebbline/study.h"

#include <string>

namespace ebbline::report {

/// The verdict, where the voltage is lost, what happened when, and the cautions; plain text, UTF-8,
/// control characters of the scene's own texts made visible.
[[nodiscard]] std::string writeText(const Examination& examination);

/// One object as assets/start.schema.json describes; ends with a line feed.
[[nodiscard]] std::string writeJson(const Examination& examination);

} // namespace ebbline::report
