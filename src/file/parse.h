// SPDX-License-Identifier: MIT
// From a text to a TOML table, with the limits that protect the parser.
#pragma once

#include "problems.h"

#include <string>
#include <string_view>

namespace ebbline::file {

/// Largest file that is read.
inline constexpr std::size_t largest_file = 4U << 20;

/// Parses a TOML text after checking its limits: 4 MiB a file, 64 KiB a line, 32 dots a key, 64
/// open brackets. Throws SceneError with the places of what is wrong: one syntax error per block.
[[nodiscard]] toml::table parse(const std::string& file, std::string_view text);

} // namespace ebbline::file
