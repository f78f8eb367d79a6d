// SPDX-License-Identifier: MIT
// Each rule kept, and broken by the smallest step, against its published value.
#include "ruled.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using namespace ebbline::ruled;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const std::string iso = "small-craft-iso";
const std::string us = "small-craft-us";
const std::string land = "vehicle-and-cabin";

constexpr RuleState kept = RuleState::Kept;
constexpr RuleState broken = RuleState::Broken;
constexpr RuleState not_judged = RuleState::NotJudged;

/// Feed with cables of one size throughout.
drawn::Feed sized(const Size& size, double rating_a = 15) {
    return {.plus = size, .minus = size, .rating_a = rating_a};
}

/// A steady current that flows for so long, after a second of nothing.
Waveform pulse(double amps, double seconds) {
    return {.time_s = {0, 1, 1 + 1e-9, 1 + seconds, 1 + seconds + 1e-9, 20},
            .volts = {},
            .sensed = {},
            .amps = {0, 0, amps, amps, 0, 0},
            .speed = {}};
}

RuleState carriesStart(double rating_a, double amps, double seconds) {
    Case made = of(sized(mm2(2.5), rating_a));
    made.start.peak_a = amps;
    made.start.waveform = pulse(amps, seconds);
    return made.state("fuse-carries-start");
}

} // namespace

TEST_CASE("without a rule set what depends on one is not judged and says so", "[rules]") {
    const Case none = of({});
    CHECK(none.state("rule-set") == not_judged);
    CHECK_THAT(none.find("rule-set").reason, Contains("No rule set is chosen"));
    for (const char* rule : {"fuse-near-battery",
                             "fuse-protects-conductor",
                             "current-capacity",
                             "drop-3-percent",
                             "drop-10-percent"}) {
        CAPTURE(rule);
        CHECK(none.state(rule) == not_judged);
        CHECK_FALSE(none.find(rule).reason.empty());
    }
    // What rests on no set is judged all the same.
    CHECK(none.state("headroom") == kept);
    CHECK(none.state("fuse-present") == kept);
    CHECK_THAT(of({}, "small-craft-is").find("rule-set").reason, Contains("small-craft-iso"));
    CHECK_THROWS(of({}, iso).find("rule-set"));
}

TEST_CASE("vehicles and cabins have no published table of their own here", "[rules]") {
    for (const char* rule : {"fuse-near-battery", "fuse-protects-conductor", "current-capacity"}) {
        CAPTURE(rule);
        const RuleFinding finding = of({}, land).find(rule);
        CHECK(finding.state == not_judged);
        CHECK_THAT(finding.reason, Contains("No published"));
        CHECK_FALSE(finding.limit.has_value());
    }
}

TEST_CASE("headroom alone says whether the fridge starts", "[rules]") {
    Case made = of({}, iso);
    CHECK(made.state("headroom") == kept);
    made.verdict = {.margin = Margin::OnlyJust, .headroom_v = 0.01};
    CHECK(made.state("headroom") == kept);
    CHECK_THAT(made.find("headroom").reason, Contains("only just"));
    made.start.outcome = Outcome::Trips;
    made.verdict = {.margin = Margin::No, .headroom_v = -0.01};
    CHECK(made.state("headroom") == broken);
    made.start.outcome = Outcome::Stalls;
    made.verdict.headroom_v.reset();
    CHECK(made.state("headroom") == not_judged);
}

TEST_CASE("the drop at running current is held against the limit the user chose", "[rules]") {
    // Sum on paper: 8.3 m of 2.5 mm2 class 5 (IEC 60228: 7.98 mohm/m), six joints, fuse and holder.
    const double loop_ohm = 8.3 * 7.98e-3 + 6 * 0.2e-3 + 6.7e-3;
    for (const double limit_pct : {3.0, 10.0}) {
        const std::string rule = limit_pct == 3 ? "drop-3-percent" : "drop-10-percent";
        const double amps = limit_pct / 100 * 12 / loop_ohm;
        Case made = of({}, iso);
        made.settings.drop = DropChoice{limit_pct, "its maker asks for it"};
        made.start.running_a = amps * 0.9999;
        CHECK(made.state(rule) == kept);
        CHECK_THAT(made.find(rule).reason, Contains("its maker asks for it"));
        CHECK_THAT(made.find(rule).reason, Contains("nothing about starting"));
        made.start.running_a = amps * 1.0001;
        CHECK(made.state(rule) == broken);
        // Nobody's choice: the figures, but no state.
        made.settings.drop.reset();
        CHECK(made.state(rule) == not_judged);
        CHECK_THAT(*made.find(rule).value, WithinRel(limit_pct * 1.0001, 1e-9));
    }
}

TEST_CASE("ISO's and the US formula as published decide where they are the stricter", "[rules]") {
    // Source: ABYC E-11, worked example: 10 A over 11 + 10 ft at 3 % of 12 V wants SAE 10, SAE 12
    // being too thin: 10.75 x 10 x 21 / 5833 = 0.387 V.
    const auto drawn_as = [](double gauge) {
        Case made = of({.fuse_m = 0.1,
                        .length_m = 10.5 * 0.3048 - 0.1,
                        .plus = sae(gauge),
                        .minus = sae(gauge),
                        .holder_mohm = 0,
                        .element_mohm = 0.1,
                        .joint_mohm = 0},
                       us);
        made.start.running_a = 10;
        made.settings.drop = DropChoice{3, "its maker asks for it"};
        return made.find("drop-3-percent");
    };
    CHECK(drawn_as(12).state == broken);
    CHECK_THAT(*drawn_as(12).value, WithinRel(10.75 * 10 * 21 / 5833 / 12 * 100, 1e-4));
    CHECK(drawn_as(10).state == kept);
}

TEST_CASE("where no set prints a formula the drawn resistances decide", "[rules]") {
    // The land formula would give 0.0225 x 5 x 8.3 / 2.5 = 0.374 V; the sum on paper, 0.371 V.
    Case made = of({}, land);
    made.settings.drop = DropChoice{3, "the maker's word"};
    const double loop_ohm = 8.3 * 7.98e-3 + 6 * 0.2e-3 + 6.7e-3;
    CHECK_THAT(*made.find("drop-3-percent").value, WithinRel(5 * loop_ohm / 12 * 100, 1e-9));
    CHECK(made.state("drop-3-percent") == broken);
    CHECK_THAT(made.find("drop-3-percent").source, Contains("user's choice"));
}

TEST_CASE("a drop rule that is kept never says that the fridge starts", "[rules]") {
    // The classic trap: the running drop keeps 10 %, the start trips all the same.
    Case made = of({}, iso);
    made.settings.drop = DropChoice{10, ""};
    made.start.outcome = Outcome::Trips;
    made.verdict = {.margin = Margin::No, .headroom_v = -0.4};
    CHECK(made.state("drop-10-percent") == kept);
    CHECK(made.state("headroom") == broken);
}

TEST_CASE("the feed has a fuse in its plus side", "[rules]") {
    CHECK(of({}).state("fuse-present") == kept);
    Case bare = of({});
    std::erase_if(bare.drawn.parts, [](const Part& part) { return part.id == "main-fuse"; });
    std::erase_if(bare.drawn.runs, [](const Run& run) { return run.id == "lead"; });
    drawn::runOf(bare.drawn, "plus").cores[0].from = {"house", "plus"};
    CHECK(bare.state("fuse-present") == broken);
    CHECK(bare.state("unfused-branch", "fridge") == broken);
    CHECK(bare.state("dead-short") == broken);
    // The same fuse in the minus side does not count.
    Case minus = of({});
    for (auto& [id, from, to] : std::vector<std::tuple<std::string, Terminal, Terminal>>{
             {"lead", {"house", "minus"}, {"main-fuse", "line"}},
             {"plus", {"main-fuse", "load"}, {"fridge", "minus"}},
             {"minus", {"fridge", "plus"}, {"house", "plus"}}}) {
        drawn::runOf(minus.drawn, id).cores[0].from = from;
        drawn::runOf(minus.drawn, id).cores[0].to = to;
    }
    CHECK(minus.state("fuse-present") == broken);
    CHECK_THAT(minus.find("fuse-present").reason, Contains("minus side"));
}

TEST_CASE("the first fuse is near the battery", "[rules]") {
    const auto at = [](const std::string& rules, double fuse_m, bool sheathed) {
        Case made = of({.fuse_m = fuse_m}, rules);
        made.settings.sheathed = sheathed;
        return made.find("fuse-near-battery");
    };
    // ISO 13297 (from memory): 200 mm along the conductor, or sheathed all the way.
    CHECK(at(iso, 0.200, false).state == kept);
    CHECK(at(iso, 0.201, false).state == broken);
    CHECK(at(iso, 3, true).state == kept);
    CHECK(at(iso, 0.2, false).unchecked);
    // 33 CFR 183.455: 7 in, or 40 in within a sheath.
    CHECK(at(us, 7 * 0.0254, false).state == kept);
    CHECK(at(us, 0.178, false).state == broken);
    CHECK_FALSE(at(us, 0.178, false).unchecked);
    CHECK(at(us, 40 * 0.0254, true).state == kept);
    CHECK_FALSE(at(us, 40 * 0.0254, true).unchecked);
    // 33 CFR 183.460 (from memory): 72 in from the battery's own terminal.
    CHECK(at(us, 72 * 0.0254, true).state == kept);
    CHECK(at(us, 72 * 0.0254, true).unchecked);
    CHECK(at(us, 1.83, true).state == broken);
}

TEST_CASE("a consumer that the battery reaches past every fuse is found", "[rules]") {
    Case made = of({}, us);
    drawn::addPart(
        made.drawn,
        "pump",
        Load{},
        {{{"main-fuse", "load"}, {"pump", "plus"}}, {{"house", "minus"}, {"pump", "minus"}}});
    CHECK(made.state("unfused-branch") == kept);
    made.drawn.runs[made.drawn.runs.size() - 2].cores[0].from = {"main-fuse", "line"};
    const RuleFinding finding = made.find("unfused-branch");
    CHECK(finding.state == broken);
    CHECK(finding.on == "pump");
    CHECK_THAT(*finding.value, WithinAbs(0.25, 1e-12)); // the lead and its own cable
}

TEST_CASE("a fuse carries the start", "[rules]") {
    // Source: ISO 8820-3 types C and F (from memory): 1.10 times the rating for 100 h, not less
    // than 0.75 s at 1.35, 0.25 s at 1.6, 0.15 s at 2 times.
    CHECK(carriesStart(15, 16.5, 15) == kept);
    CHECK(carriesStart(15, 16.6, 0.74) == kept);
    CHECK(carriesStart(15, 16.6, 0.76) == broken);
    CHECK(carriesStart(10, 13.6, 0.24) == kept);
    CHECK(carriesStart(10, 13.6, 0.26) == broken);
    CHECK(carriesStart(10, 20, 0.149) == kept);
    CHECK(carriesStart(10, 20, 0.151) == broken);
    // 10 A: it melts at 72 A2 s or more, (6 x 10)^2 x 0.02.
    CHECK(carriesStart(10, 100, 0.0071) == kept);
    CHECK(carriesStart(10, 100, 0.0073) == broken);
    // What charges an input capacitor, about 1 A2 s, never opens it.
    CHECK(carriesStart(10, 96.6, 1e-4) == kept);
}

TEST_CASE("a start that never happened says nothing about the fuse", "[rules]") {
    Case made = of({});
    made.start = {.outcome = Outcome::NotPowered};
    CHECK(made.state("fuse-carries-start") == not_judged);
    CHECK(made.state("current-capacity") == not_judged);
    CHECK(made.state("drop-3-percent") == not_judged);
    CHECK(made.state("headroom") == not_judged);
}

TEST_CASE("a fuse is small enough for the thinnest conductor behind it", "[rules]") {
    // ISO 13297: not above the capacity; table A.1 (from memory): 25 A for 2.5 mm2 and 70 C.
    CHECK(of(sized(mm2(2.5), 25), iso).state("fuse-protects-conductor") == kept);
    CHECK(of(sized(mm2(2.5), 25.1), iso).state("fuse-protects-conductor") == broken);
    CHECK(of(sized(mm2(2.5)), iso).find("fuse-protects-conductor").unchecked);
    // The return counts: 1.5 mm2 carries 18 A.
    const drawn::Feed thin_return{.plus = mm2(4), .minus = mm2(1.5), .rating_a = 18.1};
    CHECK(of(thin_return, iso).state("fuse-protects-conductor") == broken);
    // 33 CFR 183.455: 150 % of table 5; AWG 12 with 105 C insulation carries 45 A, so 67.5 A.
    Case made = of(sized(awg(12), 67.5), us);
    made.drawn.surroundings.ambient_c = 30;
    made.settings.insulation_c = 105;
    CHECK(made.state("fuse-protects-conductor") == kept);
    CHECK_THAT(*made.find("fuse-protects-conductor").limit, WithinRel(67.5, 1e-12));
    CHECK_FALSE(made.find("fuse-protects-conductor").unchecked);
    made = of(sized(awg(12), 67.6), us);
    made.settings.insulation_c = 105;
    CHECK(made.state("fuse-protects-conductor") == broken);
}

TEST_CASE("of two fuses in a row each answers for what no smaller one protects", "[rules]") {
    // 100 A at the battery before 16 mm2, then 15 A before 2.5 mm2.
    Case made = of(sized(mm2(2.5)), iso);
    drawn::runOf(made.drawn, "lead").cores[0].from = {"bus", "2"};
    drawn::addPart(made.drawn, "bus", BusBar{}, {});
    drawn::addPart(
        made.drawn,
        "bank-fuse",
        Fuse{.rating_a = 90, .resistance_mohm = 0.5},
        {{{"house", "plus"}, {"bank-fuse", "line"}}, {{"bank-fuse", "load"}, {"bus", "1"}}});
    CHECK(made.state("fuse-protects-conductor", "main-fuse") == kept);
    // Table A.1 (from memory): 16 mm2 carries 90 A; but the 2.5 mm2 lead of 25 A lies before the
    // 15 A fuse and behind this one alone.
    CHECK(made.state("fuse-protects-conductor", "bank-fuse") == broken);
    drawn::runOf(made.drawn, "lead").cores[0].size = mm2(16);
    CHECK(made.state("fuse-protects-conductor", "bank-fuse") == kept);
}
