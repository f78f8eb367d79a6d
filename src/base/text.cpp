// SPDX-License-Identifier: MIT
// Text for people and for files.
#include "ebbline/text.h"

#include "ebbline/words.h"

#include <fmt/core.h>
#include <xxhash.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <numeric>
#include <utility>
#include <vector>

namespace ebbline::text {
namespace {

/// Length in bytes of the well-formed UTF-8 character at the start of `rest`, 0 if there is none.
std::size_t characterLength(std::string_view rest) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(rest[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80)
        return 1;
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 0;
    if (length == 0 || lead > 0xF4 || rest.size() < length)
        return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(i) & 0xC0) != 0x80)
            return 0;
    // Overlong forms, surrogates, beyond U+10FFFF.
    const bool is_wrong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F) ||
                          (lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F);
    return is_wrong ? 0 : length;
}

bool isControl(std::string_view character) {
    const auto lead = static_cast<unsigned char>(character[0]);
    if (character.size() == 1)
        return lead < 0x20 || lead == 0x7F;
    if (character.size() == 2)
        return lead == 0xC2 && static_cast<unsigned char>(character[1]) < 0xA0;
    // Line and paragraph separators; embeddings, overrides and isolates of writing direction.
    return ("\u2028" <= character && character <= "\u202E") ||
           ("\u2066" <= character && character <= "\u2069");
}

std::string escaped(std::string_view bytes) {
    std::string out;
    for (const char byte : bytes)
        out += fmt::format("\\x{:02X}", static_cast<unsigned char>(byte));
    return out;
}

/// Edits from one word to the other: a letter put in, left out, replaced, or two exchanged.
std::size_t distance(std::string_view one, std::string_view other) {
    std::vector<std::size_t> row(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    std::vector<std::size_t> above = row;
    for (std::size_t i = 0; i < one.size(); ++i) {
        std::vector<std::size_t> next(row.size(), i + 1);
        for (std::size_t j = 0; j < other.size(); ++j) {
            const std::size_t replaced = row[j] + (one[i] == other[j] ? 0 : 1);
            next[j + 1] = std::min({replaced, next[j] + 1, row[j + 1] + 1});
            if (i > 0 && j > 0 && one[i] == other[j - 1] && one[i - 1] == other[j])
                next[j + 1] = std::min(next[j + 1], above[j - 1] + 1);
        }
        above = std::exchange(row, std::move(next));
    }
    return row.back();
}

/// The shortest name that goes on where the word ends: "charge_pct" for "charge".
std::optional<std::string> findLonger(std::string_view word, std::span<const std::string> names) {
    constexpr std::size_t least = 3;
    std::optional<std::string> longer;
    for (const std::string& name : names)
        if (word.size() >= least && name.starts_with(word) &&
            (!longer || name.size() < longer->size()))
            longer = name;
    return longer;
}

/// With the reader's decimal mark.
std::string withMark(std::string digits) {
    // TRANSLATORS: the decimal mark
    std::ranges::replace(digits, '.', words(".").front());
    return digits;
}

} // namespace

std::string number(double value) {
    std::array<char, 32> buffer{};
    const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), result.ptr};
}

std::string fixed(std::optional<double> value, int decimals) {
    if (!value)
        return "-";
    const std::string digits = fmt::format("{:.{}f}", *value, decimals);
    const bool is_nothing = digits.find_first_of("123456789") == std::string::npos;
    return withMark(is_nothing && digits.starts_with('-') ? digits.substr(1) : digits);
}

std::string figure(double value) {
    return withMark(number(value));
}

std::optional<std::string> findNearest(std::string_view word, std::span<const std::string> names) {
    constexpr std::size_t longest_word = 100;
    if (word.size() > longest_word)
        return std::nullopt;
    const std::size_t allowed = std::max<std::size_t>(1, word.size() / 3);
    std::optional<std::string> nearest;
    std::size_t least = allowed + 1;
    for (const std::string& name : names) {
        const auto [shorter, longer] = std::minmax({word.size(), name.size()});
        if (longer - shorter >= least) // at least so many edits; also spares the search, which is
            continue;                  // slow for long words
        if (const std::size_t edits = distance(word, name); edits < least) {
            least = edits;
            nearest = name;
        }
    }
    return nearest ? nearest : findLonger(word, names);
}

std::string escapeControls(std::string_view raw) {
    std::string out;
    while (!raw.empty()) {
        const std::size_t length = characterLength(raw);
        const std::string_view character = raw.substr(0, std::max<std::size_t>(length, 1));
        out += length == 0 || isControl(character) ? escaped(character) : std::string(character);
        raw.remove_prefix(character.size());
    }
    return out;
}

std::string inQuotes(std::string_view word) {
    constexpr std::size_t longest_word = 60;
    if (word.size() <= longest_word)
        return words("'{}'", word);
    std::size_t end = longest_word;
    while (end > 0 && (static_cast<unsigned char>(word[end]) & 0xC0) == 0x80)
        --end; // not within a character
    return words("'{}'", std::string(word.substr(0, end)) + "...");
}

void replaceAll(std::string& text, std::string_view what, std::string_view with) {
    for (std::size_t at = text.find(what); at != std::string::npos;
         at = text.find(what, at + with.size()))
        text.replace(at, what.size(), with);
}

std::string tidyUnits(std::string sentence) {
    replaceAll(sentence, "mm2", "mm²");
    replaceAll(sentence, "mohm", "mΩ");
    return sentence;
}

std::size_t width(std::string_view utf8) {
    return static_cast<std::size_t>(
        std::ranges::count_if(utf8, [](char byte) { return (byte & 0xC0) != 0x80; }));
}

std::string contentHash(std::string_view bytes) {
    const XXH128_hash_t hash = XXH3_128bits(bytes.data(), bytes.size());
    return fmt::format("{:016x}{:016x}", hash.high64, hash.low64);
}

} // namespace ebbline::text
