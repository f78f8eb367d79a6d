// SPDX-License-Identifier: MIT
// Whys are found in what people read.
#include "ebbline/whys.h"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace ebbline;

namespace {

std::vector<std::string> spokenIn(const std::string& text) {
    std::vector<std::string> spoken;
    for (const Why& why : desk::whysIn(text))
        spoken.push_back(desk::wordsOf(why).front());
    return spoken;
}

} // namespace

TEST_CASE("a word is found wherever it begins in a text, and nowhere else", "[whys]") {
    CHECK(spokenIn("1.5 mm² twin, 9.1 m one way") == std::vector<std::string>{"mm²", "twin"});
    CHECK(spokenIn("Low-voltage CUT-OUT 10.50 V") == std::vector<std::string>{"cut-out"});
    CHECK(spokenIn("12.49 V, 0.13 V lost inside") == std::vector<std::string>{"lost inside"});
    CHECK(spokenIn("refused, beforehand").size() ==
          1); // "fuse" is within a word, "before" begins one
    CHECK(spokenIn("10.5").empty());
    CHECK(spokenIn("").empty());
}

TEST_CASE("no word stands for two things", "[whys]") {
    std::set<std::string> spoken;
    for (const Why& why : desk::allWhys())
        for (const std::string& word : desk::wordsOf(why)) {
            INFO(word);
            CHECK_FALSE(word.empty());
            CHECK(spoken.insert(word).second);
        }
}
