// SPDX-License-Identifier: MIT
// Texts that others wrote in English, in the reader's language.
#include "ebbline/error.h"
#include "ebbline/words.h"

#include <array>
#include <cctype>
#include <filesystem>
#include <optional>

namespace ebbline {
namespace {

constexpr std::string_view place = "{}";
constexpr int deepest = 4; ///< sentences within sentences; a hostile text has no end of them

using Pieces = std::vector<std::string_view>;

/// What a sentence says around its places.
Pieces split(std::string_view sentence) {
    Pieces pieces;
    for (std::size_t at = sentence.find(place); at != std::string_view::npos;
         at = sentence.find(place)) {
        pieces.push_back(sentence.substr(0, at));
        sentence.remove_prefix(at + place.size());
    }
    pieces.push_back(sentence);
    return pieces;
}

/// What stands at the places of a sentence in a text that it fits; each as short as it can be.
std::optional<Pieces> match(std::string_view text, const Pieces& pieces) {
    if (!text.starts_with(pieces.front()))
        return std::nullopt;
    text.remove_prefix(pieces.front().size());
    Pieces found;
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        const std::string_view piece = pieces[i];
        const bool is_last = i + 1 == pieces.size();
        if (is_last && !text.ends_with(piece))
            return std::nullopt;
        const std::size_t at = is_last ? text.size() - piece.size() : text.find(piece);
        if (at == std::string_view::npos)
            return std::nullopt;
        found.push_back(text.substr(0, at));
        text.remove_prefix(at + piece.size());
    }
    return text.empty() ? std::optional(found) : std::nullopt;
}

/// A translation with its places filled. No braces but its places mean anything here: a parser
/// speaks of braces.
std::string fill(std::string_view translation, const std::vector<std::string>& found) {
    std::string out;
    std::size_t next = 0;
    while (!translation.empty()) {
        const bool is_numbered = translation.size() > 2 && translation[2] == '}' &&
                                 std::isdigit(static_cast<unsigned char>(translation[1])) != 0;
        if (!translation.starts_with(place) && !(translation[0] == '{' && is_numbered)) {
            out += translation[0];
            translation.remove_prefix(1);
            continue;
        }
        const std::size_t index =
            translation[1] == '}' ? next++ : static_cast<std::size_t>(translation[1] - '0');
        out += index < found.size() ? found[index] : "";
        translation.remove_prefix(translation.find('}') + 1);
    }
    return out;
}

/// Words of a scene or of a command line stand in quotes.
bool isQuoted(std::string_view found, std::string_view before) {
    return (found.starts_with('\'') && found.ends_with('\'')) || before.ends_with('\'');
}

/// A text by the first of the sentences that it fits, and so what is filled in; `depth` times.
std::string translated(std::string_view text, std::span<const char* const> sentences, int depth) {
    for (const char* sentence : sentences) {
        const Pieces pieces = split(sentence);
        const auto found = match(text, pieces);
        if (!found)
            continue;
        std::vector<std::string> filling;
        for (std::size_t i = 0; i < found->size(); ++i) {
            const std::string_view one = (*found)[i];
            filling.push_back(depth == 0 || isQuoted(one, pieces[i])
                                  ? std::string(one)
                                  : translated(one, sentences, depth - 1));
        }
        return fill(words(sentence), filling);
    }
    return std::string(text);
}

/// Whatever the system most often refuses people, in its own words.
constexpr std::array refusals{phrase("No such file or directory"),
                              phrase("Permission denied"),
                              phrase("Operation not permitted"),
                              phrase("Is a directory"),
                              phrase("Not a directory"),
                              phrase("No space left on device"),
                              phrase("Disk quota exceeded"),
                              phrase("File too large"),
                              phrase("Read-only file system"),
                              phrase("File name too long"),
                              phrase("Too many levels of symbolic links"),
                              phrase("Input/output error"),
                              phrase("Broken pipe"),
                              phrase("Text file busy"),
                              phrase("Exec format error"),
                              phrase("Too many open files"),
                              phrase("Cannot allocate memory"),
                              phrase("Resource temporarily unavailable")};

} // namespace

std::string fromEnglish(std::string_view text, std::span<const char* const> sentences) {
    return translated(text, sentences, deepest);
}

std::span<const char* const> systemRefusals() {
    return refusals;
}

std::string describe(const std::system_error& error) {
    static constexpr std::array sentences{
        phrase("filesystem error: directory iterator cannot open directory: {} [{}]")};
    std::string text = error.what();
    const std::string refusal = error.code().message();
    if (const std::size_t at = text.rfind(refusal); at != std::string::npos && !refusal.empty())
        text.replace(at, refusal.size(), fromEnglish(refusal, refusals));
    return fromEnglish(text, sentences);
}

} // namespace ebbline
