// SPDX-License-Identifier: MIT
// A day of cycling in words, as JSON and as CSV.
#pragma once

#include "ebbline/hours.h"

#include <string>

namespace ebbline::report {

/// What is taken, how long the battery lasts, from which charge starts fail; plain text, UTF-8.
[[nodiscard]] std::string writeHours(const Hours& hours);
/// The same as one object, as assets/hours.schema.json describes; ends with a line feed.
[[nodiscard]] std::string writeHoursJson(const Hours& hours);
/// The first 24 hours as CSV with a head.
[[nodiscard]] std::string writeDay(const Day& day);

} // namespace ebbline::report
