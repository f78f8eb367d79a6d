// SPDX-License-Identifier: MIT
// A look at a TOML text before it is parsed.
#include "scan.h"

#include "parse.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <regex>
#include <string>

namespace ebbline::file {
namespace {

constexpr std::size_t longest_line = 64U << 10;
constexpr int most_dots = 32;     // the parser's stack overflows at tens of thousands
constexpr int most_brackets = 64; // open at once

/// Goes through a text once. Dots and brackets within quotes and comments do not count.
class Scanner {
public:
    Scanner(std::string_view text, Problems& problems) : m_text(text), m_problems(problems) {}

    void run() {
        while (m_at < m_text.size() && !m_stopped) {
            if (m_text[m_at] == '"' || m_text[m_at] == '\'')
                skipQuoted(m_text[m_at]);
            else if (m_text[m_at] == '#')
                skipComment();
            else
                count(m_text[m_at++]);
        }
    }

    /// Line of a text of several lines that is never closed.
    [[nodiscard]] std::optional<int> unclosedLine() const {
        return m_unclosed ? std::optional(lineOf(*m_unclosed)) : std::nullopt;
    }

private:
    [[nodiscard]] int lineOf(std::size_t at) const {
        return 1 + static_cast<int>(std::ranges::count(m_text.substr(0, at), '\n'));
    }

    void count(char letter) {
        if (letter == '.') {
            if (++m_dots > most_dots)
                refuse(words("more than 32 dots in one key"));
            return;
        }
        if (letter == '[' || letter == '{')
            if (++m_brackets > most_brackets)
                refuse(words("more than 64 brackets open"));
        if ((letter == ']' || letter == '}') && m_brackets > 0)
            --m_brackets;
        if (std::string_view("[]{}=,\n").find(letter) != std::string_view::npos)
            m_dots = 0;
    }

    [[nodiscard]] bool isAt(std::string_view word) const {
        return m_at < m_text.size() && m_text.substr(m_at, word.size()) == word;
    }

    /// From an opening quote to behind the closing one, of one or of three.
    void skipQuoted(char quote) {
        const std::string three(3, quote);
        const bool is_long = isAt(three);
        const std::size_t opened = m_at;
        m_at += is_long ? 3 : 1;
        while (m_at < m_text.size()) {
            if (m_text[m_at] == '\\' && quote == '"')
                m_at += 2;
            else if (is_long ? isAt(three) : m_text[m_at] == quote)
                break;
            else if (!is_long && m_text[m_at] == '\n')
                return; // not closed; the parser will say so
            else
                ++m_at;
        }
        if (m_at >= m_text.size() && is_long)
            m_unclosed = opened;
        m_at += is_long ? 3 : 1;
        for (int more = 0; is_long && more < 2 && isAt(std::string(1, quote)); ++more)
            ++m_at; // up to two quotes may belong to the text itself
    }

    void skipComment() { m_at = std::min(m_text.find('\n', m_at), m_text.size()); }

    /// The first finding is enough: behind it nothing is sure.
    void refuse(const std::string& message) {
        const std::string_view before = m_text.substr(0, m_at);
        const std::size_t line_break = before.rfind('\n');
        const std::string_view in_line =
            before.substr(line_break == std::string_view::npos ? 0 : line_break + 1);
        m_problems.add(lineOf(m_at), static_cast<int>(text::width(in_line)), message);
        m_stopped = true;
    }

    std::string_view m_text;
    Problems& m_problems;
    std::optional<std::size_t> m_unclosed;
    std::size_t m_at = 0;
    int m_dots = 0;
    int m_brackets = 0;
    bool m_stopped = false;
};

/// Calls `visit(line number, line)` for every line.
template <class Visit>
void eachLine(std::string_view text, const Visit& visit) {
    for (int number = 1; !text.empty(); ++number) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        visit(number, text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

} // namespace

void checkLimits(std::string_view text, Problems& problems) {
    if (text.size() > largest_file) {
        problems.add(1, 1, words("the file is longer than 4 MiB"));
        return;
    }
    eachLine(text, [&](int number, std::string_view line) {
        if (line.size() > longest_line)
            problems.add(number, 1, words("the line is longer than 64 KiB"));
        if (const std::size_t place = line.find('\0'); place != std::string_view::npos)
            problems.add(number,
                         1 + static_cast<int>(text::width(line.substr(0, place))),
                         words("a NUL byte"));
    });
    Scanner(text, problems).run();
}

std::optional<int> findUnclosed(std::string_view text) {
    Problems ignored("", "");
    Scanner scanner(text, ignored);
    scanner.run();
    return scanner.unclosedLine();
}

std::vector<Stretch> findStretches(std::string_view text) {
    static const std::regex header(R"(\s*\[\[?\s*([A-Za-z0-9_-]+)[A-Za-z0-9_. -]*\]\]?\s*)");
    static const std::regex key(R"(\s*([A-Za-z0-9_-]+)[\s=.].*)");
    static const std::regex id(R"(\s*id\s*=?\s*["']?([a-z][a-z0-9-]*).*)");
    constexpr std::size_t longest = 200; // the library's matcher is recursive
    std::vector<Stretch> stretches{Stretch{}};
    bool is_head = true;
    eachLine(text, [&](int number, std::string_view whole) {
        const std::string line(whole.substr(0, std::min({whole.find_first_of("#\r"), longest})));
        std::smatch match;
        if (std::regex_match(line, match, header)) {
            const bool is_within = !is_head && match[1] == stretches.back().name &&
                                   line.find('.') != std::string::npos;
            if (!is_within)
                stretches.push_back({.line = number, .name = match[1]});
            is_head = false;
        } else if (is_head && std::regex_match(line, match, key))
            stretches.push_back({.line = number, .name = match[1]});
        else if (!is_head && stretches.back().id.empty() && std::regex_match(line, match, id)) {
            stretches.back().id = match[1];
            stretches.back().id_line = number;
        }
    });
    return stretches;
}

} // namespace ebbline::file
