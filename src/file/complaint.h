// SPDX-License-Identifier: MIT
// What the parser says about a text that is no TOML, in the reader's language.
#pragma once

#include <string>
#include <string_view>

namespace ebbline::file {

/// The description of a parse error as part of a sentence.
[[nodiscard]] std::string complaintOf(std::string_view description);

} // namespace ebbline::file
