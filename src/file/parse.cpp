// SPDX-License-Identifier: MIT
// From a text to a TOML table; behind an error of syntax the next block is read again.
#include "parse.h"

#include "scan.h"

#include <algorithm>
#include <cctype>
#include <limits>

namespace ebbline::file {
namespace {

constexpr int most_errors = 20;

/// Replaces the lines [first, end) by empty ones, so that later lines keep their numbers.
void blank(std::string& text, int first, int end) {
    int line = 1;
    for (char& letter : text) {
        if (letter == '\n')
            ++line;
        else if (line >= first && line < end)
            letter = ' ';
    }
}

/// Blanks the block that holds the line. An error at a block's very first line may belong to the
/// block before it, which was not closed: both go.
void blankBlock(std::string& text, int line) {
    const std::vector<int> blocks = findBlocks(text);
    const auto next = std::ranges::upper_bound(blocks, line);
    const int end = next == blocks.end() ? std::numeric_limits<int>::max() : *next;
    const auto before = std::ranges::lower_bound(blocks, line); // begins at or after the line
    blank(text, before == blocks.begin() ? 1 : *std::prev(before), end);
}

std::string describe(const toml::parse_error& error) {
    std::string message(error.description());
    if (!message.empty())
        message[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(message[0])));
    return message;
}

/// A text with blanked blocks may read otherwise than before.
bool fitsLimits(std::string_view text) {
    Problems problems("", text);
    checkLimits(text, problems);
    return !problems.any();
}

} // namespace

toml::table parse(const std::string& file, std::string_view text) {
    Problems problems(file, text);
    checkLimits(text, problems);
    problems.throwIfAny();
    std::string rest(text);
    for (int tries = 0; tries < most_errors && fitsLimits(rest); ++tries)
        try {
            toml::table table = toml::parse(std::string_view(rest), std::string_view(file));
            if (problems.any())
                break;
            return table;
        } catch (const toml::parse_error& error) {
            const bool is_at_end =
                error.description().find("end-of-file") != std::string_view::npos;
            const auto opened = is_at_end ? findUnclosed(rest) : std::nullopt;
            problems.add(error.source(),
                         describe(error) +
                             (opened ? ", a text begun at line " + std::to_string(*opened) : ""));
            if (is_at_end)
                break; // whatever was never closed holds the blocks behind it
            blankBlock(rest, static_cast<int>(error.source().begin.line));
        }
    problems.throwIfAny();
    return {};
}

} // namespace ebbline::file
