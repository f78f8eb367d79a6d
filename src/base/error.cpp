// SPDX-License-Identifier: MIT
// Errors as text: place, message, the line, a caret.
#include "ebbline/error.h"

#include "ebbline/text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

namespace ebbline {
namespace {

std::string place(const Problem& problem) {
    if (problem.line == 0)
        return problem.file.empty() ? "" : text::escapeControls(problem.file) + ": ";
    return fmt::format(
        "{}:{}:{}: ", text::escapeControls(problem.file), problem.line, problem.column);
}

/// The first `count` characters of a text.
std::string_view firstCharacters(std::string_view utf8, std::size_t count) {
    std::size_t bytes = 0;
    for (; bytes < utf8.size(); ++bytes)
        if (text::width(utf8.substr(bytes, 1)) == 1 && count-- == 0)
            break;
    return utf8.substr(0, bytes);
}

/// For a terminal: control characters visible, tabs as one space so that the caret stays below.
std::string shown(std::string_view raw) {
    std::string spaced(raw);
    std::ranges::replace(spaced, '\t', ' ');
    return text::escapeControls(spaced);
}

/// What stands before and behind the caret; of a long line only what is near.
std::pair<std::string, std::string> excerpt(std::string_view line, std::size_t before) {
    constexpr std::size_t most_before = 70;
    constexpr std::size_t most_shown = 120;
    std::string_view head = firstCharacters(line, before);
    std::string_view tail = line.substr(head.size());
    std::string lead;
    if (before > most_before) {
        head.remove_prefix(firstCharacters(head, text::width(head) - most_before).size());
        lead = "...";
    }
    const std::string_view near = firstCharacters(tail, most_shown - text::width(head));
    return {lead + shown(head), shown(near) + (near.size() < tail.size() ? "..." : "")};
}

std::string describe(const Problem& problem) {
    std::string out = place(problem) + text::escapeControls(problem.message) + "\n";
    if (problem.line == 0 || problem.source_line.empty())
        return out;
    const std::string number = fmt::format("{:>5}", problem.line);
    const auto before = static_cast<std::size_t>(std::max(problem.column - 1, 0));
    const auto [head, tail] = excerpt(problem.source_line, before);
    out += number + " | " + head + tail + "\n";
    out += std::string(number.size(), ' ') + " | " + std::string(text::width(head), ' ') + "^\n";
    return out;
}

std::string describe(const std::vector<Problem>& problems) {
    std::string out;
    for (const Problem& problem : problems)
        out += describe(problem);
    return out;
}

} // namespace

SceneError::SceneError(std::vector<Problem> problems)
    : std::runtime_error(describe(problems)), m_problems(std::move(problems)) {}

void failAssert(const char* condition, const char* sentence, const char* place) {
    std::fputs(fmt::format("{}: bug: {} ({})\n", place, sentence, condition).c_str(), stderr);
    std::abort();
}

} // namespace ebbline
