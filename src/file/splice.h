// SPDX-License-Identifier: MIT
// Replacing bytes in a text, all at once, with the line ends that the text has there.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>

namespace ebbline::file {

/// Bytes of a text, the last not included.
struct Span {
    std::size_t begin = 0;
    std::size_t end = 0;
    bool operator==(const Span&) const = default;
};

/// Replacements in one text. They may be given in any order and must not overlap, except that
/// removals may.
class Splices {
public:
    explicit Splices(std::string_view text) : m_text(text) {}

    void replace(Span span, std::string with);
    void insert(std::size_t at, std::string what) { replace({at, at}, std::move(what)); }
    void remove(Span span) { replace(span, ""); }

    /// The text with all replacements made. Line feeds in what was put in are written as the lines
    /// around them end.
    [[nodiscard]] std::string apply() const;

private:
    struct Splice {
        Span span;
        std::string with;
    };
    std::string_view m_text;
    std::multimap<std::size_t, Splice> m_splices; ///< by where they begin, then as they were given
};

/// Start of the line in which a byte stands.
[[nodiscard]] std::size_t lineBegin(std::string_view text, std::size_t at);
/// Start of the line behind it; the end of the text in its last line.
[[nodiscard]] std::size_t nextLine(std::string_view text, std::size_t at);
/// The line that begins at a byte, without spaces and tabs around it and without its end.
[[nodiscard]] std::string_view contentOf(std::string_view text, std::size_t line_begin);
/// Whether the text ends within a line, so that something has to end it before more can follow.
[[nodiscard]] bool endsOpen(std::string_view text);

} // namespace ebbline::file
