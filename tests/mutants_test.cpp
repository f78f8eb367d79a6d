// SPDX-License-Identifier: MIT
// Thousands of scenes changed at random: each is refused with a place, or becomes a circuit.
#include "fuzz/passage.h"
#include "mutant.h"

#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <filesystem>

using namespace ebbline;

namespace {

struct Tally {
    int read = 0;
    int refused = 0;
    std::size_t circuits = 0;
    double slowest_s = 0;
};

void follow(const std::string& text, Tally& tally) {
    const auto begun = std::chrono::steady_clock::now();
    const fuzz::Passage passage = fuzz::pass(text);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begun;
    tally.slowest_s = std::max(tally.slowest_s, taken.count());
    (passage.was_read ? tally.read : tally.refused) += 1;
    tally.circuits += passage.circuits.size();
    if (!passage.broken.empty())
        FAIL(passage.broken);
}

} // namespace

TEST_CASE("the scenes that mutants are bred from are good", "[mutants]") {
    for (const std::string& text : mutants::sceneTexts())
        CHECK(fuzz::pass(text).was_read);
}

TEST_CASE("a scene changed at random is refused with a place or becomes a circuit", "[mutants]") {
    constexpr int count = 10000;
    mutants::Breeder breeder(mutants::sceneTexts(), 20261125);
    Tally tally;
    for (int i = 0; i < count; ++i) {
        const mutants::Mutant mutant = breeder.breed();
        INFO("mutant " << i << ": " << mutant.story);
        follow(mutant.text, tally);
    }
    // Both ways must be gone often, or nothing was tried.
    CHECK(tally.read > count / 10);
    CHECK(tally.refused > count / 3);
    CHECK(tally.circuits > count / 2);
    CHECK(tally.slowest_s < 5);
}

TEST_CASE("what fuzzing found is refused with a place or becomes a circuit", "[mutants]") {
    int count = 0;
    const std::filesystem::path corpus =
        std::filesystem::path(EBBLINE_SOURCE_DIR) / "tests" / "fuzz" / "corpus";
    for (const auto& entry : std::filesystem::directory_iterator(corpus)) {
        INFO(entry.path().filename());
        CHECK(fuzz::pass(file::readBytes(entry.path())).broken.empty());
        ++count;
    }
    CHECK(count > 50);
    CHECK(count <= 200);
}

TEST_CASE("the same seed breeds the same mutants, another seed others", "[mutants]") {
    const auto texts = mutants::sceneTexts();
    mutants::Breeder one(texts, 1);
    mutants::Breeder same(texts, 1);
    mutants::Breeder other(texts, 2);
    const std::string first = one.breed().text;
    CHECK(first == same.breed().text);
    CHECK(first != other.breed().text);
}
