// SPDX-License-Identifier: MIT
// A look at a TOML text before it is parsed.
#pragma once

#include "problems.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline::file {

/// Checks what could crash or choke the parser; adds what it finds. Reads keys, brackets, texts and
/// comments exactly as TOML does, up to the first error of syntax.
void checkLimits(std::string_view text, Problems& problems);

/// The line on which a text of several lines begins that is never closed.
[[nodiscard]] std::optional<int> findUnclosed(std::string_view text);

/// Lines that are read, or left out, together: a block with the blocks within it, or one key of the
/// head with its value.
struct Stretch {
    int line = 1;     ///< its first, counted from 1; it reaches to the next stretch
    std::string name; ///< of the block or key; empty before the first
    std::string id;   ///< of the block, where one can be made out
    int id_line = 0;
};

/// The stretches of a text that does not parse, as far as one can tell. The first begins at line 1.
[[nodiscard]] std::vector<Stretch> findStretches(std::string_view text);

} // namespace ebbline::file
