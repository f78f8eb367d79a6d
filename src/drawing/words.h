// SPDX-License-Identifier: MIT
// Every text that people read in a picture goes through here, so that a table of another language
// can stand behind it.
#pragma once

#include <fmt/core.h>

#include <string>
#include <utility>

namespace ebbline::drawing {

/// The text in the reader's language; as yet all read English.
[[nodiscard]] inline std::string words(const char* text) {
    return text;
}

/// The same with places to fill in: the order of {} may differ between languages.
template <class... Arguments>
[[nodiscard]] std::string words(const char* text, const Arguments&... arguments) {
    return fmt::format(fmt::runtime(words(text)), arguments...);
}

} // namespace ebbline::drawing
