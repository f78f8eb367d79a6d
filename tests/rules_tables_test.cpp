// SPDX-License-Identifier: MIT
// The tables that rules are judged by are data: read with care, and what they say is what counts.
#include "ruled.h"
#include "scratch.h"

#include "ebbline/embedded.h"
#include "ebbline/error.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace ebbline;
using namespace ebbline::ruled;
using Catch::Matchers::Contains;

namespace {

/// The program's own table of rules with one text replaced by another.
std::string changed(const std::string& from, const std::string& to) {
    std::string text(embedded::find("rules.toml"));
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

/// The models of a folder with that text for rules.toml.
Catalogues readWith(const std::string& rules) {
    const Scratch folder;
    for (const embedded::File& file : embedded::all())
        if (file.name != "first-scene.toml" && file.name != "spinit")
            std::ofstream(folder.path() / file.name, std::ios::binary)
                << (file.name == "rules.toml" ? std::string_view(rules) : file.text);
    return file::readModels(folder.path()).catalogues;
}

std::string complaint(const std::string& from, const std::string& to) {
    try {
        static_cast<void>(readWith(changed(from, to)));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("a number corrected in the tables corrects the finding", "[rules]") {
    Case made = of({.rating_a = 25}, "small-craft-iso");
    CHECK(made.state("fuse-protects-conductor") == RuleState::Kept);
    made.catalogues = readWith(changed("[2.5, 17, 25,", "[2.5, 17, 24,"));
    CHECK(made.state("fuse-protects-conductor") == RuleState::Broken);
}

TEST_CASE("a table compared with its standard no longer counts as from memory", "[rules]") {
    Case made = of({}, "small-craft-iso");
    CHECK(made.find("fuse-protects-conductor").unchecked);
    made.catalogues =
        readWith(changed("certainty = \"memory\"\nsize", "certainty = \"standard\"\nsize"));
    CHECK_FALSE(made.find("fuse-protects-conductor").unchecked);
}

TEST_CASE("without tables nothing is judged by them", "[rules]") {
    Case made = of({}, "small-craft-iso");
    made.catalogues.rules = {};
    for (const char* rule : {"fuse-carries-start",
                             "fuse-protects-conductor",
                             "current-capacity",
                             "breaking-capacity",
                             "dead-short"}) {
        CAPTURE(rule);
        CHECK(made.state(rule) == RuleState::NotJudged);
        CHECK_FALSE(made.find(rule).reason.empty());
    }
    CHECK(made.state("headroom") == RuleState::Kept);
}

TEST_CASE("a table that is not whole is refused with its place", "[rules]") {
    CHECK(complaint("", "").empty());
    CHECK_THAT(complaint("[2.5, 17, 25, 30, 35, 40, 45]", "[2.5, 17, 25, 30, 35, 40]"),
               Contains("rules.toml:") && Contains("a row of 6 numbers, expected 7"));
    CHECK_THAT(complaint("[2.5, 17, 25,", "[2.5, 17, \"25\","), Contains("rules.toml:"));
    CHECK_THAT(complaint("[4, 22, 35,", "[2.5, 22, 35,"), Contains("a row of 'amps' stands twice"));
    CHECK_THAT(complaint("insulation_c = [60, 70, 85", "insulation_c = [70, 60, 85"),
               Contains("ascending"));
    CHECK_THAT(complaint("size = \"mm2\"", "size = \"inch\""), Contains("inch"));
    CHECK_THAT(complaint("breaking_a = 1000\n", ""), Contains("missing 'breaking_a'"));
    CHECK_THAT(complaint("[1.35, 0.75, 600]", "[1.05, 0.75, 600]"),
               Contains("ascending multiples"));
    CHECK_THAT(complaint("chemistry = \"agm\"", "chemistry = \"gel\""),
               Contains("has this entry already"));
    CHECK_THAT(complaint("k = 115", "k = 0"), Contains("rules.toml:"));
}
