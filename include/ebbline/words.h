// SPDX-License-Identifier: MIT
// Texts in the reader's language: one table for the whole program, assets/words.
#pragma once

#include <fmt/core.h>

#include <span>
#include <string>
#include <string_view>

namespace ebbline {

/// How conductor sizes are written: as the scene has them, or all in one or both scales.
enum class Sizes { Drawn, Mm2, Awg, Both };

/// How somebody wants to read. Files for programs (JSON, CSV, scenes, circuits) do not depend on
/// it.
struct Reader {
    std::string language = "en"; ///< one of languages()
    Sizes sizes = Sizes::Drawn;
};

[[nodiscard]] const Reader& reader();
/// For the whole process: once, before anything is written, by one thread.
/// Throws std::invalid_argument for a language that is not there.
void setReader(Reader reader);

/// "en" and those that have a table.
[[nodiscard]] std::span<const std::string_view> languages();
/// The one that the environment asks for by LC_ALL, LC_MESSAGES or LANG; English where it is not
/// there.
[[nodiscard]] std::string languageOfEnvironment();

/// The text in the reader's language; itself where the table has none.
[[nodiscard]] std::string words(const char* text);

/// The same with places to fill in, {} in turn or {0} {1} where another language turns them round.
template <class... Arguments>
[[nodiscard]] std::string words(const char* text, const Arguments&... arguments) {
    return fmt::format(fmt::runtime(words(text)), arguments...);
}

/// Marks a text for the table that is translated elsewhere, by words() of what this returns.
[[nodiscard]] constexpr const char* phrase(const char* text) {
    return text;
}

/// A kind, condition or outcome of the scene's words, as people say it: "lever-clamp" becomes
/// "lever clamp" and is translated.
[[nodiscard]] std::string term(std::string_view name);

} // namespace ebbline
