// SPDX-License-Identifier: MIT
// Text for people and for files: numbers, nearest names, control characters made visible.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace ebbline::text {

/// Shortest decimal text that reads back as the same double; independent of the locale. Never a
/// suffix letter, so that a circuit reader cannot take "1M" for milli.
[[nodiscard]] std::string number(double value);

/// For people: `value` with `decimals` places and the reader's decimal mark, "-" when absent.
[[nodiscard]] std::string fixed(std::optional<double> value, int decimals);

/// For people: the shortest text of `value`, with the reader's decimal mark.
[[nodiscard]] std::string figure(double value);

/// The name closest to `word` by edit distance, if one is close enough to be meant; else the
/// shortest that begins with it. None for a word of more than a hundred letters.
[[nodiscard]] std::optional<std::string> findNearest(std::string_view word,
                                                     std::span<const std::string> names);

/// `raw` with control characters (C0, DEL, C1), changes of writing direction and broken UTF-8
/// written as \xNN, for a terminal.
[[nodiscard]] std::string escapeControls(std::string_view raw);

/// A word of somebody else's in a message: in the reader's quotes, and cut to sixty letters.
[[nodiscard]] std::string inQuotes(std::string_view word);

void replaceAll(std::string& text, std::string_view what, std::string_view with);
/// For people: units as they write them, mm² and mΩ.
[[nodiscard]] std::string tidyUnits(std::string sentence);

/// XXH3-128 of the bytes in hexadecimal digits, as the tool xxh128sum prints it.
[[nodiscard]] std::string contentHash(std::string_view bytes);

/// Display width in characters (Unicode code points), for column lay-out.
[[nodiscard]] std::size_t width(std::string_view utf8);

} // namespace ebbline::text
