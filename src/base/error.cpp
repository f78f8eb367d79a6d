// SPDX-License-Identifier: MIT
// Errors as text: place, message, the line, a caret.
#include "ebbline/error.h"

#include "ebbline/text.h"

#include <fmt/core.h>

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

std::string describe(const Problem& problem) {
    std::string out = place(problem) + text::escapeControls(problem.message) + "\n";
    if (problem.line == 0 || problem.source_line.empty())
        return out;
    const std::string number = fmt::format("{:>5}", problem.line);
    const auto before = static_cast<std::size_t>(problem.column > 0 ? problem.column - 1 : 0);
    out += number + " | " + text::escapeControls(problem.source_line) + "\n";
    out += "      | " + std::string(before, ' ') + "^\n";
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
