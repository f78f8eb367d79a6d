// SPDX-License-Identifier: MIT
// A row for each of many starts, as CSV or as lines of JSON.
#pragma once

#include "ebbline/many.h"

#include <string>

namespace ebbline::report {

/// Head of the table: number, name, the varied keys, then the figures as in
/// assets/start.schema.json and the error; ends with a line feed.
[[nodiscard]] std::string writeCsvHead(const Cases& cases);
/// A line of it. Undefined values are empty.
[[nodiscard]] std::string writeCsvRow(const Row& row);
/// One object in one line with the same names, the varied keys in "set". Undefined values are null.
[[nodiscard]] std::string writeJsonRow(const Row& row);

} // namespace ebbline::report
