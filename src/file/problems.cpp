// SPDX-License-Identifier: MIT
// Problems with their places and lines; suggestions by nearest name.
#include "problems.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <tuple>

namespace ebbline::file {
namespace {

constexpr std::size_t most_problems = 100;
constexpr std::size_t longest_word = 60;
constexpr std::size_t most_names = 20; ///< that are listed where none is near

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

/// The message, and what may be meant by a name that is none of the known.
std::string
withMeant(const std::string& message, std::string_view name, std::span<const std::string> known) {
    if (name.size() <= longest_word)
        if (const auto nearest = text::findNearest(name, known))
            return words("{}, did you mean {}", message, inQuotes(*nearest));
    if (known.empty() || known.size() > most_names)
        return message;
    std::string names;
    for (const std::string& one : known)
        names += (names.empty() ? "" : ", ") + one;
    return words(known.size() == 1 ? phrase("{}, expected {}") : phrase("{}, expected one of {}"),
                 message,
                 names);
}

} // namespace

std::string inQuotes(std::string_view word) {
    return text::inQuotes(word);
}

Problems::Problems(std::string file, std::string_view text)
    : m_file(std::move(file)), m_lines(splitLines(text)) {}

void Problems::add(const toml::source_region& where, const std::string& message) {
    add(static_cast<int>(where.begin.line), static_cast<int>(where.begin.column), message);
}

void Problems::add(int line, int column, const std::string& message) {
    if (isFull()) {
        ++m_left_out;
        return;
    }
    Problem problem{.file = m_file, .line = line, .column = column, .message = message};
    if (line > 0 && static_cast<std::size_t>(line) <= m_lines.size())
        problem.source_line = m_lines[static_cast<std::size_t>(line) - 1];
    m_problems.push_back(std::move(problem));
}

void Problems::addElsewhere(const Problem& problem) {
    if (isFull())
        ++m_left_out;
    else
        m_problems.push_back(problem);
}

void Problems::addMeant(const toml::source_region& where,
                        const std::string& message,
                        std::string_view name,
                        std::span<const std::string> known) {
    // Not searched where nobody will read it: the search is slow in a large hostile file.
    add(where, isFull() ? message : withMeant(message, name, known));
}

void Problems::addUnknown(const toml::source_region& where,
                          const char* sentence,
                          std::string_view name,
                          std::span<const std::string> known) {
    addMeant(where, words(sentence, inQuotes(name)), name, known);
}

bool Problems::isFull() const {
    return m_problems.size() >= most_problems;
}

void Problems::throwIfAny() {
    if (m_problems.empty())
        return;
    std::ranges::stable_sort(m_problems, {}, [this](const Problem& problem) {
        return std::tuple(problem.file != m_file, problem.line, problem.column);
    });
    if (m_left_out > 0)
        m_problems.push_back(
            {.file = m_file, .message = words("and {} more", std::to_string(m_left_out))});
    throw SceneError(m_problems);
}

} // namespace ebbline::file
