// SPDX-License-Identifier: MIT
// Repairs that no scene asks for: all are told, and each does by hand what is said of it.
#include "by_hand.h"
#include "drawn.h"
#include "runs.h"

#include "ebbline/inquiry.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

using enum RemedyKind;
using Named = std::set<std::pair<RemedyKind, std::string>>;

/// Something of every kind that can be put right while it conducts; its cables are sound.
Installation drawPoor() {
    Installation drawn =
        drawn::loop({.length_m = 2, .area_mm2 = 10, .joint_mohm = 0.2, .charge_pct = 65});
    std::get<Battery>(drawn.parts[0].body).age_pct = 30;
    std::get<Isolator>(drawn.parts[1].body).resistance_mohm = 15;
    std::get<Fuse>(drawn.parts[2].body).holder_mohm = 14;
    drawn::runOf(drawn, "first").cores[0].joint_from.resistance_mohm = 100;
    drawn::runOf(drawn, "third").cores[0].joint_to.resistance_mohm = 30;
    drawn::addPart(
        drawn,
        "pump",
        Load{.law = "current", .current_a = 4},
        {{{"main-fuse", "load"}, {"pump", "plus"}}, {{"pump", "minus"}, {"house", "minus"}}});
    drawn::addPart(
        drawn,
        "mains",
        Charger{.on = false},
        {{{"mains", "plus"}, {"house", "plus"}}, {{"mains", "minus"}, {"house", "minus"}}});
    return drawn;
}

Installation drawDead(bool closed, bool blown) {
    Installation drawn = drawn::loop({.length_m = 2});
    std::get<Isolator>(drawn.parts[1].body).closed = closed;
    std::get<Fuse>(drawn.parts[2].body).blown = blown;
    return drawn;
}

std::vector<Remedy> remediesFor(const Installation& drawn) {
    const auto pool = runs::makePool();
    return study::findRemedies(
        *pool, drawn, file::embeddedModels(), runs::examineBriefly(drawn), [](const std::string&) {
        });
}

Named namesOf(const std::vector<Remedy>& remedies) {
    Named names;
    for (const Remedy& remedy : remedies)
        CHECK(names.emplace(remedy.kind, remedy.on).second);
    return names;
}

const Remedy& find(const std::vector<Remedy>& remedies, RemedyKind kind) {
    const auto at = std::ranges::find(remedies, kind, &Remedy::kind);
    REQUIRE(at != remedies.end());
    return *at;
}

double cutOutOf(Installation& installation) {
    const Controller& unit = drawn::unitOf(installation);
    return installation.nominal_v > 18 ? unit.cut_out_24_v : unit.cut_out_v;
}

/// Carried out by hand and started afresh, nothing merged.
void checkStep(const Installation& drawn, const Remedy& remedy, const RemedyStep& step) {
    constexpr double same_v = 2e-3; // merged and unmerged circuits agree to that
    Installation made = carryOut(remedy, step.value, drawn);
    const Start start = runs::run(made, {.attempts = 1}, false).start;
    CHECK(start.outcome == step.outcome);
    REQUIRE((start.outcome == Outcome::Starts) == step.headroom_v.has_value());
    if (step.headroom_v)
        CHECK_THAT(start.sensed_lowest_v.value() - cutOutOf(made),
                   WithinAbs(*step.headroom_v, same_v));
}

/// Says how many cures there are.
int checkSteps(const Installation& drawn, const std::vector<Remedy>& remedies) {
    int cures = 0;
    for (const Remedy& remedy : remedies) {
        CAPTURE(nameOf(remedy.kind), remedy.on);
        CHECK((remedy.cure || remedy.below));
        if (remedy.cure) {
            ++cures;
            CHECK(remedy.cure->margin == Margin::Clear);
            checkStep(drawn, remedy, *remedy.cure);
        }
        if (remedy.below) {
            CHECK(remedy.below->margin != Margin::Clear);
            checkStep(drawn, remedy, *remedy.below);
        }
    }
    return cures;
}

} // namespace

TEST_CASE("every repair of a feed that is poor throughout is told and true", "[remedies]") {
    const Installation drawn = drawPoor();
    const std::vector<Remedy> remedies = remediesFor(drawn);
    CHECK(namesOf(remedies) == Named{{RemakeJoint, "first.from"},
                                     {RemakeJoint, "third.to"},
                                     {RemakeJoints, ""},
                                     {RenewContact, "main-switch"},
                                     {RenewHolder, "main-fuse"},
                                     {ChargeBattery, "house"},
                                     {RenewBattery, "house"},
                                     {ChargerOn, ""},
                                     {OtherLoadsOff, ""}});
    const int cures = checkSteps(drawn, remedies);
    CHECK(cures > 0);
    CHECK(cures < static_cast<int>(remedies.size())); // some are not enough by themselves
}

TEST_CASE("a worn isolator and a burnt fuse holder are each cured by a new one", "[remedies]") {
    const Installation sound = drawn::loop({.length_m = 2, .area_mm2 = 10, .joint_mohm = 0.2});
    Installation worn = sound;
    std::get<Isolator>(worn.parts[1].body).resistance_mohm = 260;
    Installation burnt = sound;
    std::get<Fuse>(burnt.parts[2].body).holder_mohm = 260;
    for (const auto& [drawn, kind] :
         {std::pair{worn, RenewContact}, std::pair{burnt, RenewHolder}}) {
        CAPTURE(nameOf(kind));
        const std::vector<Remedy> remedies = remediesFor(drawn);
        CHECK(find(remedies, kind).cure);
        CHECK(remedies.front().kind == kind); // repairs stand before redesign
        checkSteps(drawn, remedies);
    }
}

TEST_CASE("what is switched off or blown is put right, if it is that alone", "[remedies]") {
    const auto off = remediesFor(drawDead(false, false));
    CHECK(namesOf(off) == Named{{SwitchOn, "main-switch"}});
    CHECK(checkSteps(drawDead(false, false), off) == 1);

    const auto blown = remediesFor(drawDead(true, true));
    CHECK(namesOf(blown) == Named{{RenewFuse, "main-fuse"}});
    CHECK(checkSteps(drawDead(true, true), blown) == 1);

    const auto both = remediesFor(drawDead(false, true));
    CHECK(namesOf(both) == Named{{SwitchOn, "main-switch"}, {RenewFuse, "main-fuse"}});
    CHECK(checkSteps(drawDead(false, true), both) == 0);
    CHECK(find(both, RenewFuse).below.value().outcome == Outcome::NotPowered);
}
