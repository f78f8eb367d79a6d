// SPDX-License-Identifier: MIT
// Remedies: every one that is offered starts clear, the step below it does not.
#include "drawn.h"
#include "runs.h"
#include "study/candidates.h"

#include "ebbline/remedies.h"

#include <catch2/catch.hpp>

#include <map>

using namespace ebbline;

namespace {

std::vector<Remedy> remediesFor(const Installation& drawn) {
    const auto pool = runs::makePool();
    return study::findRemedies(
        *pool, drawn, file::embeddedModels(), runs::examineBriefly(drawn), [](const std::string&) {
        });
}

const Remedy* find(const std::vector<Remedy>& remedies, RemedyKind kind, const std::string& on) {
    for (const Remedy& remedy : remedies)
        if (remedy.kind == kind && remedy.on == on)
            return &remedy;
    return nullptr;
}

/// Margin of the installation with the step made, simulated anew.
Margin marginWith(const Installation& drawn, const Remedy& remedy, const RemedyStep& step) {
    return runs::examineBriefly(study::withStep(drawn, remedy.kind, step)).verdict.margin;
}

} // namespace

TEST_CASE("every remedy offered starts clear and the step below it does not", "[remedies]") {
    for (const char* name : {"quay-02.toml", "quay-07.toml", "van-03.toml"}) {
        const Installation drawn = drawn::scene(name);
        const auto remedies = remediesFor(drawn);
        REQUIRE_FALSE(remedies.empty());
        int cures = 0;
        for (const Remedy& remedy : remedies) {
            CAPTURE(name, nameOf(remedy.kind), remedy.on);
            if (remedy.cure) {
                ++cures;
                CHECK(remedy.cure->margin == Margin::Clear);
                CHECK(marginWith(drawn, remedy, *remedy.cure) == Margin::Clear);
            }
            if (remedy.below) {
                CHECK(remedy.below->margin != Margin::Clear);
                CHECK(marginWith(drawn, remedy, *remedy.below) == remedy.below->margin);
            }
        }
        CAPTURE(name);
        CHECK(cures > 0);
    }
}

TEST_CASE("the remedies of the scenes are those their faults ask for", "[remedies]") {
    const auto thin = remediesFor(drawn::scene("quay-02.toml"));
    const Remedy* cable = find(thin, RemedyKind::ThickerCable, "twin");
    REQUIRE(cable != nullptr);
    CHECK(cable->cure.value().value == 2.5); // the next size one can buy
    CHECK_FALSE(cable->below.has_value());   // below it lies the drawing itself
    CHECK(find(thin, RemedyKind::DoubleVoltage, "")->cure.has_value());
    CHECK(find(thin, RemedyKind::RemakeJoint, "twin.1.from") == nullptr); // all are new

    const auto crimp = remediesFor(drawn::scene("quay-07.toml"));
    CHECK(find(crimp, RemedyKind::RemakeJoint, "twin.2.from")->cure.has_value());
    CHECK(crimp.front().kind == RemedyKind::RemakeJoint); // repairs come first

    const auto cold = remediesFor(drawn::scene("cabin-01.toml"));
    CHECK(find(cold, RemedyKind::RenewBattery, "house")->cure.has_value());

    const auto pump = remediesFor(drawn::scene("quay-06.toml"));
    CHECK(find(pump, RemedyKind::OtherLoadsOff, "")->cure.has_value());

    const auto rust = remediesFor(drawn::scene("van-02.toml"));
    CHECK(find(rust, RemedyKind::RemakeJoint, "rear-bond.lug")->cure.has_value());

    const auto fuse = remediesFor(drawn::scene("van-03.toml"));
    CHECK(find(fuse, RemedyKind::LargerFuse, "cool-fuse")->cure.has_value());

    CHECK(remediesFor(drawn::scene("quay-01.toml")).empty()); // it starts clear
}
