// SPDX-License-Identifier: MIT
// Holds what is said in German against what is said in English: the same places, no English left.
#pragma once

#include "reading_as.h"

#include "ebbline/error.h"

#include <catch2/catch.hpp>

#include <functional>
#include <regex>
#include <string>
#include <tuple>
#include <vector>

namespace ebbline {

template <class Make>
std::vector<Problem> problemsOf(const Make& make) {
    try {
        make();
    } catch (const SceneError& error) {
        return error.problems();
    }
    return {};
}

/// Whether anything is left of the words that English sentences are held together by, scene's own
/// words and what has to be typed aside.
inline bool hasEnglish(const std::string& german) {
    static const std::regex own("„[^“]*“|'[^']*'|\"[^\"]*\"|\\[[^\\]]*\\]|\\{[^}]*\\}");
    static const std::regex english(
        "\\b(the|and|with|expected|unknown|is|of|wants?|has|cannot|missing|which|not|saw|did|you)"
        "\\b");
    return std::regex_search(std::regex_replace(german, own, ""), english);
}

inline void checkSaid(const std::string& english, const std::string& german) {
    INFO(english);
    INFO(german);
    CHECK(english != german);
    CHECK_FALSE(hasEnglish(german));
}

/// The same problems at the same places, each in words of its language; how many.
template <class Make>
std::size_t checkProblems(const Make& make) {
    const auto place = [](const Problem& one) {
        return std::tuple(one.file, one.line, one.column, one.source_line);
    };
    const std::vector<Problem> english = problemsOf(make);
    const ReadingAs reader({.language = "de"});
    const std::vector<Problem> german = problemsOf(make);
    REQUIRE_FALSE(english.empty());
    REQUIRE(german.size() == english.size());
    for (std::size_t i = 0; i < english.size(); ++i) {
        CHECK(place(german[i]) == place(english[i]));
        checkSaid(english[i].message, german[i].message);
    }
    return english.size();
}

inline std::string germanOf(const std::function<std::string()>& say) {
    const ReadingAs reader({.language = "de"});
    return say();
}

} // namespace ebbline
