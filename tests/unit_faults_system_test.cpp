// SPDX-License-Identifier: MIT
// What is wrong with the unit itself: what the start does, what the first line and the lamp say.
#include "by_hand.h"
#include "drawn.h"
#include "runs.h"

#include "ebbline/file.h"
#include "ebbline/inquiry.h"
#include "ebbline/report.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// The loop of the tests with a fridge of the catalogue.
Installation healthy(double length_m = 5) {
    Installation drawn = drawn::loop({.length_m = length_m});
    std::ranges::find(drawn.parts, "fridge", &Part::id)->model = "small-12-24";
    return drawn;
}

/// The same with a fault of the catalogue on the fridge.
Installation withFault(const std::string& kind, double length_m = 5) {
    const FaultKind& fault = file::embeddedModels().catalogues.faults.at(kind);
    CHECK(fault.of == "controller");
    std::vector<Change> changes;
    for (const auto& [key, value] : fault.set)
        changes.push_back(Set{"fridge." + key, value});
    return installation::apply(healthy(length_m), changes);
}

Inquiry inquire(const Installation& drawn) {
    const auto pool = runs::makePool(1);
    return study::inquireBriefly(
        *pool, drawn, file::embeddedModels(), {}, [](const std::string&) {});
}

double highestSpeed(const Start& start) {
    return *std::ranges::max_element(start.waveform.speed);
}

} // namespace

TEST_CASE("a fault of plug, motor or shaft stalls it, and the supply is not blamed", "[faults]") {
    struct Expected {
        const char* fault;
        const char* cause;
        const char* action;
    };
    for (const auto& [fault, cause, action] :
         {Expected{"open-plug-pin", "its plug is open", "renew the pin"},
          Expected{"open-winding", "a winding of its motor is open", "three pairs of pins"},
          Expected{"seized-shaft", "seized", "licensed for refrigerant"}}) {
        CAPTURE(fault);
        const Inquiry inquiry = inquire(withFault(fault));
        const Start& start = inquiry.examination.start;
        CHECK(start.outcome == Outcome::Stalls);
        CHECK(highestSpeed(start) < 1);
        CHECK_THAT(inquiry.headline.cause,
                   Contains(cause) && Contains("the supply is not what stops it"));
        CHECK_THAT(inquiry.headline.action, Contains(action));
        CHECK(inquiry.headline.element == "fridge");
        CHECK(inquiry.lamp.flashes == 2);
        // A start that draws next to nothing does not pull the supply down either.
        CHECK(start.lowest_v.value() > 12);
    }
}

TEST_CASE("a motor line of 1 kohm lets no more through than Ohm says", "[faults]") {
    const Start start = runs::run(withFault("open-plug-pin"), {.attempts = 1}).start;
    // Standby 0.4 W and fan 2.5 W at about 12.6 V, 12.6 mA through the pin at most, call 2.5 mA.
    CHECK(start.peak_a.value() < 2.9 / 12.5 + 0.95 * 12.65 / 1000 + 0.004);
}

TEST_CASE("a slack pin keeps it from its speed, as the voltage left over says", "[faults]") {
    const Inquiry inquiry = inquire(withFault("slack-plug-pin"));
    const Start& start = inquiry.examination.start;
    CHECK(start.outcome == Outcome::Starts);
    CHECK_THAT(inquiry.headline.cause, Contains("Runs, but too slowly: a pin of its plug"));
    CHECK_THAT(report::writeText(inquiry), Contains("then runs too slowly") && Contains("slack"));
    // At the end: K w + (R + plug) i = duty limit * v, with i by the torque, which has nearly its
    // steady value: no other number of the run is used.
    const Controller unit;
    const double w = start.waveform.speed.back();
    const double motor_a = (0.95 * start.waveform.volts.back() - unit.motor_constant * w) / 1.15;
    const double torque = motor_a * unit.motor_constant;
    CHECK(torque > 0.9 * (0.1024 + unit.friction));
    CHECK(torque < 1.15 * (0.1024 + unit.friction));
}

TEST_CASE("shorted turns drive less and brake more", "[faults]") {
    const Inquiry inquiry = inquire(withFault("shorted-winding"));
    const Start& start = inquiry.examination.start;
    CAPTURE(nameOf(start.outcome));
    CHECK_FALSE(start.reached_speed);
    CHECK_THAT(inquiry.headline.cause, Contains("shorted"));
    CHECK_THAT(inquiry.headline.action, Contains("three pairs of pins"));
    // The brake alone bounds the speed: h K limit = (1 - h) K^2 w / R.
    const Controller unit;
    const double bound =
        0.4 * unit.current_limit_a * unit.winding_ohm / (0.6 * unit.motor_constant);
    CHECK(highestSpeed(start) < 1.1 * bound);
    CHECK(highestSpeed(start) > 0.2 * bound);
}

TEST_CASE("a dead controller and a hot shell do nothing, and say why", "[faults]") {
    const Inquiry dead = inquire(withFault("dead-controller"));
    CHECK(dead.examination.start.outcome == Outcome::NotDriven);
    CHECK(dead.examination.start.attempts.empty());
    CHECK_THAT(dead.headline.cause, Contains("the controller is dead"));
    CHECK(dead.headline.element == "fridge");
    CHECK(dead.lamp == LampPattern{});
    const Inquiry hot = inquire(withFault("hot-shell"));
    CHECK(hot.examination.start.outcome == Outcome::NotDriven);
    CHECK_THAT(hot.headline.cause, Contains("its shell has 125 °C, and above 110 °C"));
    CHECK_THAT(hot.headline.action, Contains("Let it cool"));
    CHECK(hot.lamp.flashes == 3);
    // At its limit it still runs.
    Installation warm = healthy();
    drawn::unitOf(warm).shell_c = drawn::unitOf(warm).shell_limit_c;
    CHECK(runs::run(warm, {.attempts = 1}).start.outcome == Outcome::Starts);
    // Without power, or never called, that is what is said.
    Installation open = withFault("dead-controller");
    std::get<Fuse>(std::ranges::find(open.parts, "main-fuse", &Part::id)->body).blown = true;
    CHECK(runs::run(open, {.attempts = 1}).start.outcome == Outcome::NotPowered);
}

TEST_CASE("a drifted cut-out is blamed only where the cut-out of its kind would hold", "[faults]") {
    const Inquiry near = inquire(withFault("drifted-cut-out", 12));
    REQUIRE(near.examination.start.outcome == Outcome::Trips);
    CHECK_THAT(near.headline.cause,
               Contains("its cut-out acts at 11.20 V, others of its kind at "
                        "10.50 V"));
    CHECK(near.headline.element == "fridge");
    CHECK(near.lamp.flashes == 5);
    CHECK(inquire(healthy(12)).examination.start.outcome == Outcome::Starts);
    const Inquiry far = inquire(withFault("drifted-cut-out", 26));
    REQUIRE(far.examination.start.outcome == Outcome::Trips);
    CHECK_THAT(far.headline.cause, !Contains("others of its kind"));
    CHECK(inquire(healthy(26)).examination.start.outcome == Outcome::Trips);
}

TEST_CASE("the lamp shows what its catalogue says, and every pattern is for an outcome", "[lamp]") {
    const auto& lamps = file::embeddedModels().catalogues.lamps;
    CHECK(lamps.size() == 7);
    std::vector<LampPattern> seen;
    for (const auto& [on, lamp] : lamps) {
        CAPTURE(on);
        bool is_outcome = false;
        for (int i = 0; i <= static_cast<int>(Outcome::NotDriven); ++i)
            is_outcome = is_outcome || nameOf(static_cast<Outcome>(i)) == on;
        CHECK(is_outcome);
        CHECK(lamp.steady == (lamp.flashes == 0));
        CHECK(std::ranges::count(seen, lamp) == 0);
        seen.push_back(lamp);
    }
    const Inquiry good = inquire(healthy());
    CHECK(good.lamp.steady);
    CHECK_THAT(report::writeText(good), Contains("lights steadily: the compressor runs"));
    const Inquiry far = inquire(healthy(26));
    CHECK_THAT(report::writeText(far), Contains("blinks 5 times every 6 s: it gave up for low"));
    CHECK_THAT(report::writeJson(far), Contains("\"flashes\": 5"));
}

TEST_CASE("what mends the unit itself makes it start, and what mends the supply does not",
          "[faults]") {
    const auto remedies_of = [](const Installation& drawn) {
        const auto pool = runs::makePool();
        return study::findRemedies(*pool,
                                   drawn,
                                   file::embeddedModels(),
                                   runs::examineBriefly(drawn),
                                   [](const std::string&) {});
    };
    for (const auto& [fault, cure] : {std::pair("open-plug-pin", RemedyKind::MendUnit),
                                      std::pair("seized-shaft", RemedyKind::MendUnit),
                                      std::pair("dead-controller", RemedyKind::MendUnit),
                                      std::pair("hot-shell", RemedyKind::LetRest)}) {
        CAPTURE(fault);
        const Installation drawn = withFault(fault);
        std::vector<RemedyKind> cures;
        for (const Remedy& remedy : remedies_of(drawn)) {
            if (!remedy.cure)
                continue;
            cures.push_back(remedy.kind);
            CHECK(remedy.on == "fridge");
            const Installation made = carryOut(remedy, remedy.cure->value, drawn);
            CHECK(runs::run(made, {.attempts = 1}).start.outcome == Outcome::Starts);
        }
        CHECK(cures == std::vector{cure});
    }
}
