// SPDX-License-Identifier: MIT
// One installation under each set of rules: what is judged, by what source, and how sure it is.
#include "ruled.h"

#include "ebbline/report.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace ebbline;
using namespace ebbline::ruled;
using Catch::Matchers::Contains;

namespace {

constexpr RuleState kept = RuleState::Kept;
constexpr RuleState broken = RuleState::Broken;
constexpr RuleState not_judged = RuleState::NotJudged;
constexpr bool checked = false;
constexpr bool from_memory = true;

/// What a set says of one rule, for 2.5 mm2 of 4.15 m one way, a 15 A fuse after 0.15 m, 4 A.
struct Expected {
    const char* rule;
    RuleState state;
    bool unchecked;
    const char* source; ///< some of its text; empty: there is none
};

const char* const practice = "common practice, no source";

// How sure each is: as the table of published values says (seen in print, or from memory).
const std::vector<Expected> iso{
    {"headroom", kept, checked, "this simulation"},
    {"fuse-present", kept, from_memory, "ISO 13297"},
    {"fuse-near-battery", kept, from_memory, "ISO 13297 (before: ISO 10133): 200 mm"},
    {"unfused-branch", kept, from_memory, "ISO 13297"},
    {"fuse-carries-start", kept, from_memory, "ISO 8820-3 types C and F"},
    {"fuse-protects-conductor", kept, from_memory, "not above the conductor's"},
    {"current-capacity", kept, from_memory, "ISO 13297 (before: ISO 10133) table A.1"},
    {"smallest-conductor", kept, checked, "ISO 13297: 1 mm2, 0.75 mm2 in a sheath"},
    {"breaking-capacity", broken, from_memory, "ISO 8820-3 types C and F"},
    {"dead-short", kept, from_memory, "IEC 60364-4-43 table 43A"},
    {"return-size", kept, checked, practice},
    {"two-wire", kept, from_memory, "ISO 13297"},
    {"shared-feed", kept, checked, practice},
    {"drop-3-percent", kept, checked, "ISO 13297 (before: ISO 10133), 3 % circuits"},
    {"drop-10-percent", not_judged, checked, "other circuits 10 %"}};

const std::vector<Expected> us{
    {"headroom", kept, checked, "this simulation"},
    {"fuse-present", kept, checked, "33 CFR 183.455"},
    {"fuse-near-battery", kept, checked, "33 CFR 183.455: 7 in"},
    {"unfused-branch", kept, checked, "33 CFR 183.455"},
    {"fuse-carries-start", kept, from_memory, "ISO 8820-3 types C and F"},
    {"fuse-protects-conductor", kept, checked, "33 CFR 183.455: at most 150 %"},
    {"current-capacity", kept, checked, "33 CFR 183.425 table 5"},
    {"smallest-conductor", kept, checked, "33 CFR 183.425: 16 AWG, 18 AWG in a sheath"},
    {"breaking-capacity", broken, from_memory, "ISO 8820-3 types C and F"},
    {"dead-short", kept, from_memory, "IEC 60364-4-43 table 43A"},
    {"return-size", kept, checked, practice},
    {"two-wire", kept, from_memory, "ABYC E-11"},
    {"shared-feed", kept, checked, practice},
    {"drop-3-percent", kept, checked, "ABYC E-11, 3 % table"},
    {"drop-10-percent", not_judged, checked, "ABYC E-11, 10 % table"}};

const std::vector<Expected> land{
    {"headroom", kept, checked, "this simulation"},
    {"fuse-present", kept, checked, practice},
    {"fuse-near-battery", not_judged, checked, ""},
    {"unfused-branch", kept, checked, practice},
    {"fuse-carries-start", kept, from_memory, "ISO 8820-3 types C and F"},
    {"fuse-protects-conductor", not_judged, checked, ""},
    {"current-capacity", not_judged, checked, ""},
    {"breaking-capacity", broken, from_memory, "ISO 8820-3 types C and F"},
    {"dead-short", kept, from_memory, "IEC 60364-4-43 table 43A"},
    {"return-size", kept, checked, practice},
    {"two-wire", kept, checked, practice},
    {"shared-feed", kept, checked, practice},
    {"drop-3-percent", kept, checked, "the user's choice"},
    {"drop-10-percent", not_judged, checked, "the user's choice"}};

/// The same installation under that set, held to that drop.
Case under(const std::string& set, double limit_pct) {
    Case made = of({}, set);
    made.start.running_a = 4;
    made.settings.drop = DropChoice{limit_pct, "its maker asks for it"};
    return made;
}

void check(const std::string& set, const std::vector<Expected>& expected) {
    const std::vector<RuleFinding> findings = under(set, 3).findings();
    std::multiset<std::string> found;
    std::multiset<std::string> rules;
    for (const RuleFinding& finding : findings)
        found.insert(finding.rule);
    for (const auto& [rule, state, unchecked, source] : expected) {
        CAPTURE(set, rule);
        rules.insert(rule);
        const auto finding = std::ranges::find(findings, rule, &RuleFinding::rule);
        REQUIRE(finding != findings.end());
        CHECK(finding->state == state);
        CHECK(finding->unchecked == unchecked);
        CHECK_THAT(finding->source, Contains(source));
        CHECK(finding->source.empty() == (*source == '\0'));
    }
    CHECK(found == rules); // each said once, and none beside them
}

} // namespace

TEST_CASE("each set of rules judges what it has a source for and says how sure that is",
          "[rules]") {
    check("small-craft-iso", iso);
    check("small-craft-us", us);
    check("vehicle-and-cabin", land);
}

TEST_CASE("which drop a fridge falls under is chosen, with a reason", "[rules]") {
    // The 10 % of ISO is from memory; that of the US table was seen.
    for (const auto& [set, unchecked] : {std::pair{"small-craft-iso", from_memory},
                                         std::pair{"small-craft-us", checked},
                                         std::pair{"vehicle-and-cabin", checked}}) {
        CAPTURE(set);
        const Case made = under(set, 10);
        CHECK(made.state("drop-3-percent") == not_judged);
        CHECK_THAT(made.find("drop-3-percent").reason, Contains("not the limit chosen"));
        const RuleFinding ten = made.find("drop-10-percent");
        CHECK(ten.state == kept);
        CHECK(ten.unchecked == unchecked);
        CHECK_THAT(ten.reason, Contains("Chosen because: its maker asks for it."));
        // A limit that nobody prints is the user's, and rests on nobody's memory.
        const RuleFinding five = under(set, 5).find("drop-5-percent");
        CHECK(five.state == kept);
        CHECK_FALSE(five.unchecked);
        CHECK_THAT(five.source, Contains("the user's choice"));
    }
}

TEST_CASE("what rests on a value from memory says so right below it", "[rules]") {
    for (const char* set : {"small-craft-iso", "small-craft-us", "vehicle-and-cabin"})
        for (const RuleFinding& finding : under(set, 3).findings()) {
            CAPTURE(set, finding.rule);
            const std::string text = report::writeRules(std::span(&finding, 1));
            CHECK((text.find("from memory") != std::string::npos) == finding.unchecked);
        }
}

TEST_CASE("no length and no current are no drop, and nothing is divided by them", "[rules]") {
    // Conductors of no length, all joints perfect: fuse and holder remain, 4 A x 6.7 mohm.
    for (const char* set : {"small-craft-iso", "small-craft-us", "vehicle-and-cabin"}) {
        CAPTURE(set);
        Case made = of({.fuse_m = 0, .length_m = 0, .joint_mohm = 0}, set);
        made.settings.drop = DropChoice{3, ""};
        made.start.running_a = 4;
        CHECK(*made.find("drop-3-percent").value == Approx(4 * 6.7e-3 / 12 * 100));
        for (const double length_m : {0.0, 4.0}) {
            made.drawn = drawn::feed({.fuse_m = length_m / 40, .length_m = length_m});
            made.drawn.rules = set;
            made.start.running_a = 0;
            CHECK(*made.find("drop-3-percent").value == 0);
            CHECK(made.state("drop-3-percent") == kept);
            for (const RuleFinding& finding : made.findings()) {
                CAPTURE(finding.rule, length_m);
                CHECK(std::isfinite(finding.value.value_or(0)));
                CHECK(std::isfinite(finding.limit.value_or(0)));
            }
        }
    }
}
