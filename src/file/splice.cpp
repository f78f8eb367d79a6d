// SPDX-License-Identifier: MIT
// Replacing bytes in a text, all at once, with the line ends that the text has there.
#include "splice.h"

#include <algorithm>

namespace ebbline::file {
namespace {

/// How lines end around a byte: as the line before it, else as its own.
std::string_view lineEndAt(std::string_view text, std::size_t at) {
    std::size_t feed = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
    if (feed == std::string_view::npos)
        feed = text.find('\n', at);
    const bool has_return = feed != std::string_view::npos && feed > 0 && text[feed - 1] == '\r';
    return has_return ? "\r\n" : "\n";
}

std::string withLineEnds(std::string_view text, std::string_view line_end) {
    std::string out;
    for (const char letter : text)
        if (letter == '\n')
            out += line_end;
        else
            out += letter;
    return out;
}

} // namespace

void Splices::replace(Span span, std::string with) {
    m_splices.emplace(span.begin, Splice{span, std::move(with)});
}

std::string Splices::apply() const {
    std::string out;
    std::size_t at = 0;
    for (const auto& [begin, splice] : m_splices) {
        if (begin > at)
            out += m_text.substr(at, begin - at);
        out += withLineEnds(splice.with, lineEndAt(m_text, begin));
        at = std::max(at, splice.span.end);
    }
    return out += m_text.substr(std::min(at, m_text.size()));
}

std::size_t lineBegin(std::string_view text, std::size_t at) {
    const std::size_t feed = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
    return feed == std::string_view::npos ? 0 : feed + 1;
}

std::size_t nextLine(std::string_view text, std::size_t at) {
    const std::size_t feed = text.find('\n', at);
    return feed == std::string_view::npos ? text.size() : feed + 1;
}

std::string_view contentOf(std::string_view text, std::size_t line_begin) {
    std::string_view line = text.substr(line_begin, nextLine(text, line_begin) - line_begin);
    const std::size_t first = line.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos)
        return {};
    return line.substr(first, line.find_last_not_of(" \t\r\n") - first + 1);
}

bool endsOpen(std::string_view text) {
    return !text.empty() && text.back() != '\n';
}

} // namespace ebbline::file
