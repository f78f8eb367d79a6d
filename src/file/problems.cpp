// SPDX-License-Identifier: MIT
// Places, messages, and the limits before parsing.
#include "problems.h"

#include "ebbline/text.h"

#include <algorithm>
#include <tuple>

namespace ebbline::file {
namespace {

constexpr std::size_t largest_file = 4U << 20;
constexpr std::size_t longest_line = 64U << 10;
constexpr int most_dots = 32;
constexpr int most_brackets = 64;

std::vector<std::string_view> splitLines(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        if (line.ends_with('\r'))
            line.remove_suffix(1);
        lines.push_back(line);
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

/// Longest row of dotted names in a line, outside of strings as far as one can tell without
/// parsing.
int dotsInARow(std::string_view line) {
    int most = 0;
    int dots = 0;
    for (const char letter : line) {
        const bool is_name = std::isalnum(static_cast<unsigned char>(letter)) != 0 ||
                             letter == '_' || letter == '-' || letter == '"' || letter == '\'' ||
                             letter == ' ' || letter == '\t';
        if (letter == '.')
            most = std::max(most, ++dots);
        else if (!is_name)
            dots = 0;
    }
    return most;
}

/// Checks what could crash or choke the parser; adds what it finds.
void checkLimits(std::string_view text, Problems& problems) {
    if (text.size() > largest_file) {
        problems.add(1, 1, "the file is longer than 4 MiB");
        return;
    }
    int brackets = 0;
    int number = 0;
    for (const std::string_view line : splitLines(text)) {
        ++number;
        if (line.size() > longest_line)
            problems.add(number, 1, "the line is longer than 64 KiB");
        if (line.find('\0') != std::string_view::npos)
            problems.add(number, static_cast<int>(line.find('\0')) + 1, "a NUL byte");
        if (dotsInARow(line) > most_dots)
            problems.add(number, 1, "more than 32 dots in one key");
        brackets += static_cast<int>(std::ranges::count_if(
                        line, [](char letter) { return letter == '[' || letter == '{'; })) -
                    static_cast<int>(std::ranges::count_if(
                        line, [](char letter) { return letter == ']' || letter == '}'; }));
        const auto opened =
            std::ranges::count_if(line, [](char letter) { return letter == '[' || letter == '{'; });
        if (brackets > most_brackets || opened > 4096) {
            problems.add(number, 1, "more than 64 brackets open");
            return;
        }
    }
}

} // namespace

Problems::Problems(std::string file, std::string_view text)
    : m_file(std::move(file)), m_lines(splitLines(text)) {}

void Problems::add(const toml::source_region& where, const std::string& message) {
    add(static_cast<int>(where.begin.line), static_cast<int>(where.begin.column), message);
}

void Problems::add(int line, int column, const std::string& message) {
    Problem problem{.file = m_file, .line = line, .column = column, .message = message};
    if (line > 0 && static_cast<std::size_t>(line) <= m_lines.size())
        problem.source_line = m_lines[static_cast<std::size_t>(line) - 1].substr(0, 200);
    m_problems.push_back(std::move(problem));
}

void Problems::addUnknown(const toml::source_region& where,
                          const std::string& what,
                          std::string_view name,
                          std::span<const std::string> known) {
    std::string message = "unknown " + what + " '" + std::string(name) + "'";
    if (const auto nearest = text::findNearest(name, known))
        message += ", did you mean '" + *nearest + "'";
    add(where, message);
}

void Problems::throwIfAny() {
    if (m_problems.empty())
        return;
    std::ranges::stable_sort(m_problems, {}, [](const Problem& problem) {
        return std::tuple(problem.line, problem.column);
    });
    throw SceneError(m_problems);
}

toml::table parse(const std::string& file, std::string_view text) {
    Problems problems(file, text);
    checkLimits(text, problems);
    problems.throwIfAny();
    try {
        return toml::parse(text, file);
    } catch (const toml::parse_error& error) {
        problems.add(error.source(), std::string(error.description()));
        problems.throwIfAny();
    }
    return {};
}

} // namespace ebbline::file
