// SPDX-License-Identifier: MIT
// Every outcome, from the fault that brings it about.
#include "drawn.h"
#include "runs.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

Start startOf(const Installation& installation) {
    return runs::run(installation, {.attempts = 1}).start;
}

template <class Kind>
Kind& bodyOf(Installation& installation, const std::string& id) {
    return std::get<Kind>(std::ranges::find(installation.parts, id, &Part::id)->body);
}

/// A thermostat wired to the call terminals.
Installation withThermostat(bool closed) {
    Installation drawn = drawn::loop({});
    drawn.parts.push_back({.id = "stat", .body = Thermostat{.closed = closed}});
    Run call = drawn.runs.front();
    call.id = "call";
    call.cores.push_back(call.cores.front());
    call.cores[0].from = {"fridge", "call"};
    call.cores[0].to = {"stat", "line"};
    call.cores[1].from = {"stat", "load"};
    call.cores[1].to = {"fridge", "call-return"};
    drawn.runs.push_back(call);
    return drawn;
}

} // namespace

TEST_CASE("an open isolator leaves the fridge without power", "[outcomes]") {
    Installation drawn = drawn::loop({});
    bodyOf<Isolator>(drawn, "main-switch").closed = false;
    const Start start = startOf(drawn);
    CHECK(start.outcome == Outcome::NotPowered);
    CHECK_FALSE(start.lowest_v.has_value());
    CHECK_FALSE(start.ledger.has_value());
}

TEST_CASE("a blown fuse leaves the fridge without power", "[outcomes]") {
    Installation drawn = drawn::loop({});
    bodyOf<Fuse>(drawn, "main-fuse").blown = true;
    CHECK(startOf(drawn).outcome == Outcome::NotPowered);
}

TEST_CASE("a wire not drawn leaves the fridge without power", "[outcomes]") {
    Installation drawn = drawn::loop({});
    drawn.runs.pop_back();
    CHECK(startOf(drawn).outcome == Outcome::NotPowered);
}

TEST_CASE("a battery below the cut-in never powers it up", "[outcomes]") {
    Installation drawn = drawn::loop({});
    drawn::unitOf(drawn).cut_in_v = 12.9;
    CHECK(startOf(drawn).outcome == Outcome::SupplyLow);
}

TEST_CASE("a thermostat decides whether it is called", "[outcomes]") {
    CHECK(startOf(withThermostat(false)).outcome == Outcome::ThermostatOpen);
    const Start called = startOf(withThermostat(true));
    CHECK(called.outcome == Outcome::Starts);
    // Closed as drawn, it calls from the scene's time 0 on, and the first current follows delay_s
    // later.
    CHECK_THAT(called.attempts.front().begin_s, WithinAbs(Controller{}.delay_s, 2e-3));
}

TEST_CASE("plus and minus exchanged", "[outcomes]") {
    Installation drawn = drawn::loop({});
    std::swap(drawn::runOf(drawn, "third").cores[0].to, drawn::runOf(drawn, "return").cores[0].to);
    CHECK(startOf(drawn).outcome == Outcome::Reversed);
}

TEST_CASE("a 12 V unit on a 24 V battery, and a 24 V unit on a 12 V battery", "[outcomes]") {
    Installation high = drawn::loop({});
    high.nominal_v = 24;
    bodyOf<Battery>(high, "house").nominal_v = 24;
    drawn::unitOf(high).nominal_v = 12;
    CHECK(startOf(high).outcome == Outcome::WrongVoltage);
    Installation low = drawn::loop({});
    drawn::unitOf(low).nominal_v = 24;
    CHECK(startOf(low).outcome == Outcome::WrongVoltage);
    // The same unit that takes either starts on 24 V.
    drawn::unitOf(high).nominal_v = 0;
    CHECK(startOf(high).outcome == Outcome::Starts);
}

TEST_CASE("a compressor that restarts against pressure with little current stalls", "[outcomes]") {
    Installation drawn = drawn::loop({});
    drawn::unitOf(drawn).pressure_pct = 100;
    drawn::unitOf(drawn).current_limit_a = 4;
    drawn::unitOf(drawn).position_a = 4;
    const Examination examination = runs::examine(drawn);
    CHECK(examination.start.outcome == Outcome::Stalls);
    // A stall is a high-voltage event: it draws about an ampere and says nothing about the supply.
    CHECK_FALSE(examination.verdict.headroom_v.has_value());
    CHECK_FALSE(examination.loop_limit_ohm.has_value());
    CHECK(examination.start.lowest_v.value() > 12);
}

TEST_CASE("a fuse far too small opens", "[outcomes]") {
    Installation drawn = drawn::loop({});
    bodyOf<Fuse>(drawn, "main-fuse").rating_a = 2;
    const Start start = startOf(drawn);
    CHECK(start.outcome == Outcome::FuseOpens);
}

TEST_CASE("a long ramp without a starting peak trips late, as pressure builds", "[outcomes]") {
    Installation drawn = drawn::loop({.length_m = 26});
    drawn::unitOf(drawn).spin_up_s = 2;
    const Start start = startOf(drawn);
    REQUIRE(start.outcome == Outcome::Trips);
    CHECK(start.reached_speed);
    CHECK(start.attempts.front().end_s > 5);
    CHECK(start.horizon_s > 60); // three time constants of pressure build-up
}

TEST_CASE("a supply that collapses when held on has no headroom", "[outcomes]") {
    const Examination examination = runs::examine(drawn::loop({.length_m = 90}));
    CHECK(examination.start.outcome == Outcome::Trips);
    CHECK_FALSE(examination.verdict.held_off_lowest_v.has_value());
    CHECK_FALSE(examination.verdict.headroom_v.has_value());
    CHECK_FALSE(examination.verdict.no_headroom_reason.empty());
    CHECK(examination.loop_limit_ohm.value() < examination.loop_ohm);
}

TEST_CASE("the loop budget separates starting from giving up", "[outcomes]") {
    const Installation drawn = drawn::loop({});
    const Examination examination = runs::examine(drawn);
    const double spare_ohm = examination.loop_limit_ohm.value() - examination.loop_ohm;
    REQUIRE(spare_ohm > 0);
    const auto with_extra = [&](double ohm) {
        Installation changed = drawn;
        Joint& joint = drawn::runOf(changed, "third").cores[0].joint_to;
        joint.resistance_mohm = *joint.resistance_mohm + ohm * 1e3;
        return startOf(changed).outcome;
    };
    CHECK(with_extra(spare_ohm - 1e-3) == Outcome::Starts);
    CHECK(with_extra(spare_ohm + 1.5e-3) == Outcome::Trips);
}
