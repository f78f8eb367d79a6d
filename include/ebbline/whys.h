// SPDX-License-Identifier: MIT
// A short why for every word of the trade that stands on a sheet.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline {

/// One word, or several for the same, with what it is and why it matters.
struct Why {
    const char* spoken; ///< as it stands in texts, in English; alternatives between bars
    const char* reason; ///< one or two sentences, in English
};

namespace desk {

/// All of them, in the order in which a beginner meets them.
[[nodiscard]] std::span<const Why> allWhys();

/// The words of one in the reader's language, the first of which heads it.
[[nodiscard]] std::vector<std::string> wordsOf(const Why& why);

/// Those whose word stands in a text of the reader's language, as they come in it; at most two.
[[nodiscard]] std::vector<Why> whysIn(std::string_view text);

} // namespace desk
} // namespace ebbline
