// SPDX-License-Identifier: MIT
// From a text to a TOML table, with the limits that protect the parser.
#pragma once

#include "problems.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace ebbline::file {

/// Largest file that is read.
inline constexpr std::size_t largest_file = 4U << 20;

/// A text as far as it can be read.
struct Parsed {
    toml::table table;
    /// What was left out for errors of syntax: names of blocks, and of keys of the head.
    std::set<std::string> lost;
    /// The ids that stood in blocks left out, as far as one can tell.
    std::map<std::string, toml::source_region> lost_ids;
};

/// Parses a TOML text after checking its limits: 4 MiB a file, 64 KiB a line, 32 dots a key, 64
/// open brackets. Adds the places of what is wrong, one syntax error per block, and goes on without
/// those blocks. Nothing when no sense can be made of the rest.
[[nodiscard]] std::optional<Parsed> parse(std::string_view text, Problems& problems);

} // namespace ebbline::file
