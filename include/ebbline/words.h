// SPDX-License-Identifier: MIT
// Texts in the reader's language: one table for the whole program, assets/words.
#pragma once

#include <fmt/core.h>

#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

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
[[nodiscard]] std::vector<std::string> languages();
/// The one that the environment asks for by LC_ALL, LC_MESSAGES or LANG; English where it is not
/// there.
[[nodiscard]] std::string languageOfEnvironment();

/// The text in the reader's language; itself where the table has none.
[[nodiscard]] std::string words(const char* text);

/// A translation with its places filled; the English text where its places do not fit.
template <class... Arguments>
[[nodiscard]] std::string
filled(const std::string& translation, const char* text, const Arguments&... arguments) {
    try {
        return fmt::format(fmt::runtime(translation), arguments...);
    } catch (const std::runtime_error&) { // fmt::format_error
        return fmt::format(fmt::runtime(text), arguments...);
    }
}

/// The same with places to fill in, {} in turn or {0} {1} where another language turns them round.
template <class... Arguments>
[[nodiscard]] std::string words(const char* text, const Arguments&... arguments) {
    return filled(words(text), text, arguments...);
}

/// Marks a text for the table that is translated elsewhere, by words() of what this returns.
[[nodiscard]] constexpr const char* phrase(const char* text) {
    return text;
}

/// A text that a library or another process wrote in English, by the first of the sentences that it
/// fits: texts of the table with {} for what changes. What stands there is translated likewise,
/// unless it is in quotes. Itself where none fits.
[[nodiscard]] std::string fromEnglish(std::string_view text,
                                      std::span<const char* const> sentences);

/// A kind, condition or outcome of the scene's words, as people say it: "lever-clamp" becomes
/// "lever clamp" and is translated.
[[nodiscard]] std::string term(std::string_view name);

} // namespace ebbline
