// SPDX-License-Identifier: MIT
// Texts that were written to do harm, and scenes that hold them wherever free text may stand.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ebbline::hostile {

/// Texts with commands of simulators and shells, line breaks, quotes, escape sequences, changes of
/// writing direction, other scripts, and thousands of letters.
[[nodiscard]] const std::vector<std::string>& texts();

/// The text as a TOML string in quotes.
[[nodiscard]] std::string quoted(std::string_view text);

/// The scene that holds every word of the format, with the text as title and as every name, note,
/// x- key and picture file.
[[nodiscard]] std::string sceneWith(std::string_view text);

/// The first byte or writing-direction mark that a terminal could act on; empty when there is none.
/// Line feeds are free.
[[nodiscard]] std::string findControl(std::string_view shown);

} // namespace ebbline::hostile
