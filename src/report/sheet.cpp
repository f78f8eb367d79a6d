// SPDX-License-Identifier: MIT
// Rows of a label and what is to be said under it, wrapped for a terminal.
#include "sheet.h"

#include "ebbline/text.h"

#include <algorithm>

namespace ebbline::report {
namespace {

constexpr std::size_t line_width = 96;

bool mayBreakAfter(std::string_view words) {
    return words.ends_with(',') || words.ends_with(';') || words.ends_with(':') ||
           words.ends_with(" and");
}

/// The first piece of `rest` that stays on one line, without the blank behind it.
std::string_view nextPiece(std::string_view rest) {
    for (std::size_t blank = rest.find(' '); blank != std::string_view::npos;
         blank = rest.find(' ', blank + 1))
        if (mayBreakAfter(rest.substr(0, blank)))
            return rest.substr(0, blank);
    return rest;
}

} // namespace

void Sheet::add(std::string_view label, std::string_view words) {
    const std::size_t label_width = text::width(label);
    std::string line(label);
    // A label too long for its column keeps two blanks before what follows.
    line.append(std::max(m_label_width, label_width + 2) - label_width, ' ');
    bool is_first = true;
    while (!words.empty()) {
        const std::string_view piece = nextPiece(words);
        words.remove_prefix(std::min(words.size(), piece.size() + 1));
        if (!is_first && text::width(line) + 1 + text::width(piece) > line_width) {
            addLine(line);
            line = std::string(m_label_width, ' ');
            is_first = true;
        }
        line += is_first ? "" : " ";
        line += piece;
        is_first = false;
    }
    addLine(line);
}

void Sheet::addLine(std::string_view line) {
    m_text += line.substr(0, line.find_last_not_of(' ') + 1);
    m_text += '\n';
}

std::string joined(std::span<const std::string> items, std::string_view between) {
    std::string words;
    for (std::size_t i = 0; i < items.size(); ++i)
        words.append(i == 0 ? "" : between).append(items[i]);
    return words;
}

std::string listed(std::span<const std::string> items, const std::string& last) {
    std::string words;
    for (std::size_t i = 0; i < items.size(); ++i)
        words.append(i == 0                  ? ""
                     : i + 1 == items.size() ? last
                                             : std::string(", "))
            .append(items[i]);
    return words;
}

} // namespace ebbline::report
