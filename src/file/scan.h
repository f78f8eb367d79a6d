// SPDX-License-Identifier: MIT
// A look at a TOML text before it is parsed.
#pragma once

#include "problems.h"

#include <optional>
#include <string_view>
#include <vector>

namespace ebbline::file {

/// Checks what could crash or choke the parser; adds what it finds. Reads keys, brackets, texts and
/// comments exactly as TOML does, up to the first error of syntax.
void checkLimits(std::string_view text, Problems& problems);

/// The line on which a text of several lines begins that is never closed.
[[nodiscard]] std::optional<int> findUnclosed(std::string_view text);

/// Lines, counted from 1, on which a [block] or [[block]] begins, as far as one can tell in a text
/// that does not parse.
[[nodiscard]] std::vector<int> findBlocks(std::string_view text);

} // namespace ebbline::file
