// SPDX-License-Identifier: MIT
// Rules of conductors, short circuits, the way back and shared feeds, kept and just broken.
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

constexpr RuleState kept = RuleState::Kept;
constexpr RuleState broken = RuleState::Broken;
constexpr RuleState not_judged = RuleState::NotJudged;

Case sized(const Size& size, const std::string& rules) {
    return of({.plus = size, .minus = size}, rules);
}

/// A loop of 0.2625 ohm in all on a stiff 12.6 V: 48 A when its far end is shorted. The conductors
/// are as warm as their insulation allows already, so that nothing more is added for heat.
Case shorted(double area_mm2, double rating_a) {
    Case made = of({.length_m = 3, .plus = mm2(area_mm2), .minus = mm2(area_mm2)});
    made.drawn.surroundings.ambient_c = 70;
    auto& fuse = std::get<Fuse>(made.drawn.parts[1].body);
    fuse.rating_a = rating_a;
    fuse.holder_mohm = 0;
    BatteryFault& fault = made.catalogues.rules.batteries.at("wet-lead");
    fault.flat_v = 12.6;
    fault.greatest_mohm_ah = 1e-6;
    const double others_ohm = network::loopOhm(network::build(made.drawn, made.catalogues));
    drawn::runOf(made.drawn, "plus").cores[0].joint_to.resistance_mohm =
        0.2 + (0.2625 - others_ohm) * 1e3;
    return made;
}

/// The fridge's return by sheet metal: two bonds.
Case bonded(const std::string& rules) {
    Case made = of({}, rules);
    std::erase_if(made.drawn.runs, [](const Run& run) { return run.id == "minus"; });
    made.drawn.parts.push_back({.id = "body", .body = Chassis{}});
    drawn::addPart(
        made.drawn, "rear-bond", Bond{.to = "body"}, {{{"fridge", "minus"}, {"rear-bond", "lug"}}});
    drawn::addPart(made.drawn,
                   "front-bond",
                   Bond{.to = "body"},
                   {{{"front-bond", "lug"}, {"house", "minus"}}});
    return made;
}

/// A pump behind the fridge's fuse that draws so much.
Case shared(double amps) {
    Case made = of({}, iso);
    drawn::addPart(
        made.drawn,
        "pump",
        Load{.law = "current", .current_a = amps},
        {{{"fridge", "plus"}, {"pump", "plus"}}, {{"pump", "minus"}, {"fridge", "minus"}}});
    return made;
}

} // namespace

TEST_CASE("a conductor carries its current where it lies", "[rules]") {
    // Table A.1 of ISO 13297 (from memory): 2.5 mm2 with 70 C insulation carries 25 A at 30 C.
    Case made = sized(mm2(2.5), iso);
    made.start.running_a = 25;
    CHECK(made.state("current-capacity") == kept);
    made.start.running_a = 25.01;
    CHECK(made.state("current-capacity") == broken);
    // Two circuits together: 0.80 (IEC 60364-5-52, from memory).
    made.settings.bundled_circuits = 2;
    made.start.running_a = 20;
    CHECK(made.state("current-capacity") == kept);
    made.start.running_a = 20.01;
    CHECK(made.state("current-capacity") == broken);
}

TEST_CASE("an engine space takes from the capacity what the law says", "[rules]") {
    // Source: 33 CFR 183.425 table 5: AWG 12, 105 C: 45 A, at 50 C 0.85 of that, 38.25 A.
    Case made = sized(awg(12), us);
    made.drawn.surroundings.ambient_c = 50;
    made.settings.insulation_c = 105;
    made.start.running_a = 38.25;
    CHECK(made.state("current-capacity") == kept);
    CHECK_FALSE(made.find("current-capacity").unchecked);
    made.start.running_a = 38.26;
    CHECK(made.state("current-capacity") == broken);
    made.drawn.surroundings.ambient_c = 105;
    made.start.running_a = 0.1;
    CHECK(made.state("current-capacity") == broken);
}

TEST_CASE("a cable laid along a hot way carries less", "[rules]") {
    Case made = sized(mm2(2.5), iso);
    made.start.running_a = 25;
    made.drawn.ways = {{.id = "engine-side", .line_m = {{0, 0}, {5, 0}}, .ambient_c = 50}};
    Run& run = drawn::runOf(made.drawn, "plus");
    run.route_m = {{1, 1}, {1, 0}, {3, 1}}; // touches it only
    CHECK(made.state("current-capacity") == kept);
    run.route_m = {{1, 1}, {1, 0}, {3, 0}, {3, 1}};
    const RuleFinding finding = made.find("current-capacity");
    CHECK(finding.state == broken);
    CHECK(finding.on == "plus");
    CHECK_THAT(*finding.limit, WithinRel(25 * std::sqrt(20.0 / 40.0), 1e-12)); // rise by current^2
}

TEST_CASE("conductors are not thinner than published", "[rules]") {
    // Source: ISO 13297: 1 mm2 on its own, 0.75 mm2 in a sheath; US law: 16 AWG, 18 in a sheath.
    const auto state = [](const Size& size, const std::string& rules, bool in_sheath) {
        Case made = sized(size, rules);
        for (Run& run : made.drawn.runs)
            if (in_sheath)
                run.cores.push_back(run.cores[0]);
        return made.state("smallest-conductor");
    };
    CHECK(state(mm2(1), iso, false) == kept);
    CHECK(state(mm2(0.75), iso, false) == broken);
    CHECK(state(mm2(0.75), iso, true) == kept);
    CHECK(state(mm2(0.5), iso, true) == broken);
    CHECK(state(awg(16), us, false) == kept);
    CHECK(state(sae(16), us, false) == kept);
    CHECK(state(awg(18), us, false) == broken);
    CHECK(state(awg(18), us, true) == kept);
    CHECK(state(awg(20), us, true) == broken);
}

TEST_CASE("a fuse can break the largest short circuit", "[rules]") {
    // Source: ISO 8820-3: blade fuses break 1,000 A. 12.7 V over 5 mohm is 2,540 A.
    Case made = of({.fuse_m = 1e-9, .joint_mohm = 0});
    BatteryFault& fault = made.catalogues.rules.batteries.at("wet-lead");
    fault.full_v = 12.7;
    fault.least_mohm_ah = 500;
    CHECK_THAT(*made.find("breaking-capacity").value, WithinRel(2540, 1e-6));
    CHECK(made.state("breaking-capacity") == broken);
    // 12.7 mohm let 1,000 A flow: 7.7 mohm between battery and fuse.
    Joint& joint = drawn::runOf(made.drawn, "lead").cores[0].joint_from;
    joint.resistance_mohm = 7.71;
    CHECK(made.state("breaking-capacity") == kept);
    joint.resistance_mohm = 7.69;
    CHECK(made.state("breaking-capacity") == broken);
    // A second battery beside it doubles what flows.
    joint.resistance_mohm = 7.71;
    drawn::addPart(
        made.drawn,
        "spare",
        Battery{},
        {{{"spare", "plus"}, {"house", "plus"}}, {{"spare", "minus"}, {"house", "minus"}}});
    CHECK(made.state("breaking-capacity") == broken);
    made.catalogues.rules.batteries.clear();
    CHECK(made.state("breaking-capacity") == not_judged);
}

TEST_CASE("a dead short at the fridge opens the fuse before the cable suffers", "[rules]") {
    // 48 A are 3.2 times 15 A: open within 5 s (ISO 8820-3 at 2 times, from memory).
    const RuleFinding finding = shorted(2.5, 15).find("dead-short");
    CHECK(finding.state == kept);
    CHECK(finding.value == 5.0);
    // IEC 60364-4-43: k2 S2 = 82,656 A2 s for 2.5 mm2 and k = 115.
    CHECK_THAT(*finding.limit, WithinRel(82656.25 / (48.0 * 48.0), 1e-6));
    // Just over 1.6 times 29.9 A: up to 50 s, longer than the formula holds.
    const RuleFinding slow = shorted(2.5, 29.9).find("dead-short");
    CHECK(slow.state == not_judged);
    CHECK(slow.value == 50.0);
    // 0.75 mm2 withstands 7,439 A2 s, 3.2 s.
    CHECK(shorted(0.75, 15).state("dead-short") == broken);
    CHECK_THAT(*shorted(0.75, 15).find("dead-short").limit, WithinRel(7439.0625 / 2304, 1e-6));
    CHECK(shorted(1, 15).state("dead-short") == kept); // 13,225 A2 s, 5.7 s
    // 1.35 times the rating is the least at which it must open at all.
    CHECK(shorted(16, 48 / 1.351).find("dead-short").value == 600.0);
    const RuleFinding never = shorted(16, 48 / 1.349).find("dead-short");
    CHECK(never.state == broken);
    CHECK_FALSE(never.value.has_value());
}

TEST_CASE("a current that the conductors carry for ever harms none of them", "[rules]") {
    Case made = shorted(16, 30);
    made.drawn.rules = iso;
    made.settings.insulation_c = 105; // 130 A in 16 mm2 at 30 C, at 70 C still 89 A
    CHECK(made.state("dead-short") == kept);
    CHECK_FALSE(made.find("dead-short").limit.has_value());
}

TEST_CASE("the way back is as thick as the way out", "[rules]") {
    CHECK(of({.plus = mm2(2.5), .minus = mm2(2.5)}).state("return-size") == kept);
    const RuleFinding finding = of({.plus = mm2(2.5), .minus = mm2(1.5)}).find("return-size");
    CHECK(finding.state == broken);
    CHECK(finding.on == "minus");
    CHECK(finding.limit_is_least);
    CHECK(finding.source == "common practice, no source");
}

TEST_CASE("a boat has two wires", "[rules]") {
    CHECK(of({}, iso).state("two-wire") == kept);
    CHECK(bonded(iso).state("two-wire") == broken);
    CHECK(bonded(us).state("two-wire") == broken);
    CHECK(bonded(iso).find("two-wire").unchecked); // from memory
    CHECK(bonded("vehicle-and-cabin").state("two-wire") == not_judged);
}

TEST_CASE("what shares the feed loads its fuse and takes from the fridge", "[rules]") {
    CHECK(of({}, iso).state("shared-feed") == kept);
    CHECK_FALSE(of({}, iso).find("shared-feed").value.has_value());
    const RuleFinding finding = shared(10).find("shared-feed"); // 5 A and 10 A on 15 A
    CHECK(finding.state == kept);
    CHECK(finding.on == "main-fuse");
    CHECK_THAT(finding.reason, Contains("pump, 10.0 A"));
    // Common practice, no source: a fuse is not loaded above its rating.
    CHECK(shared(10.01).state("shared-feed") == broken);
    // It counts in the conductors and in the drop too.
    CHECK_THAT(*shared(10).find("current-capacity").value, WithinAbs(15, 1e-9));
    const double alone = *of({}, iso).find("drop-3-percent").value;
    CHECK_THAT(*shared(10).find("drop-3-percent").value, WithinRel(3 * alone, 1e-9));
}

TEST_CASE("what is drawn as a breaker is judged only where its curve is not needed", "[rules]") {
    Case made = of({}, iso);
    made.drawn.parts[1].body = Breaker{.rating_a = 15};
    CHECK(made.state("fuse-present") == kept);
    CHECK(made.state("fuse-carries-start") == kept);
    made.start.peak_a = 15.1;
    CHECK(made.state("fuse-carries-start") == not_judged);
    CHECK(made.state("breaking-capacity") == not_judged);
    CHECK(made.state("dead-short") == not_judged);
}
