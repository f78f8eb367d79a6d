// SPDX-License-Identifier: MIT
// The scenes against an independent integration by Boost.Odeint of the equations in
// models/README.md.
#include "drawn.h"
#include "ode_model.h"
#include "runs.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace ebbline;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// IEC 60228 table 3, class 5 at 20 C, mohm/m; joints of the catalogue by hand.
constexpr double class_5_1_5 = 13.3;
constexpr double class_5_2_5 = 7.98;
constexpr double class_5_6 = 3.30;
constexpr double class_5_6_tinned = 3.39;
constexpr double class_5_16 = 1.21;
constexpr double crimp = 0.2;
constexpr double ring = 0.1;
constexpr double clamp = 0.2;

ode::Setup quay01() {
    const double mohm = clamp + class_5_16 * 0.4 + ring + 0.5 + crimp + class_5_6 * 0.3 + crimp +
                        crimp + 2 * class_5_6_tinned * 4.5 + crimp + crimp + ring;
    return {.charge = 0.8,
            .loop_ohm = mohm * 1e-3,
            .loop_henry = 0.3e-6 * (0.4 + 0.3 + 2 * 4.5),
            .end_s = 5};
}

ode::Setup quay02() {
    const double mohm = clamp + class_5_16 * 0.4 + ring + 0.5 + crimp + class_5_6 * 0.3 + crimp +
                        crimp + 2 * class_5_1_5 * 9.1 + crimp + crimp + ring;
    return {.charge = 0.8,
            .loop_ohm = mohm * 1e-3,
            .loop_henry = 0.3e-6 * (0.4 + 0.3 + 2 * 9.1),
            .power_s = 0,
            .call_s = 0.5,
            .end_s = 65};
}

ode::Setup quay03() {
    const double mohm = clamp + class_5_2_5 * (0.15 + 1.5 + 1.5) + 4 * crimp + clamp;
    return {.capacity_ah = 60,
            .loop_ohm = mohm * 1e-3,
            .loop_henry = 0.3e-6 * (0.15 + 1.5 + 1.5),
            .end_s = 5};
}

bool isShared(Happening what) {
    return what != Happening::SupplyOn && what != Happening::Calls && what != Happening::FuseOpens;
}

/// Seconds after the call that are integrated: the lowest voltage falls within the first, and the
/// explicit integrator pays for every microsecond of the cable's and the capacitor's time
/// constants.
constexpr double first_s = 5;

/// Events within 1 ms or 0.5 % of the time since the first call.
void compareEvents(const Start& ours, const ode::Result& theirs, double call_s, double end_s) {
    std::vector<StartEvent> shared;
    for (const StartEvent& event : ours.events)
        if (isShared(event.what) && event.at_s < end_s)
            shared.push_back(event);
    REQUIRE(shared.size() == theirs.events.size());
    for (std::size_t i = 0; i < shared.size(); ++i) {
        CAPTURE(nameOf(shared[i].what), shared[i].at_s, theirs.events[i].at_s);
        CHECK(nameOf(shared[i].what) == theirs.events[i].what);
        const double allowed_s = std::max(1e-3, 0.005 * (theirs.events[i].at_s - call_s));
        CHECK_THAT(shared[i].at_s, WithinAbs(theirs.events[i].at_s, allowed_s));
    }
}

void compare(const Installation& drawn, const ode::Setup& setup) {
    ode::Setup held = setup;
    held.held_off = true;
    held.end_s = setup.call_s + first_s;
    const ode::Result undisturbed = ode::solve(held);
    const double lowest_v =
        runs::run(drawn, {.held_off = true, .attempts = 1}).start.sensed_lowest_v.value();
    CAPTURE(lowest_v, undisturbed.sensed_lowest_v);
    CHECK_THAT(lowest_v, WithinRel(undisturbed.sensed_lowest_v, 2e-3));
    const ode::Result acting = ode::solve(setup);
    const Start ours = runs::run(drawn, {.attempts = setup.power_s == 0 ? 2 : 1}).start;
    // No case here is so close that the outcome could hang on the last millivolts.
    CHECK(std::abs(undisturbed.sensed_lowest_v - setup.unit.cut_out_v) > 5e-3);
    CHECK(nameOf(ours.outcome) == acting.outcome);
    compareEvents(ours, acting, setup.call_s, setup.end_s);
}

} // namespace

TEST_CASE("the scenes agree with an independent integration", "[reference]") {
    compare(drawn::scene("quay-01.toml"), quay01());
    compare(drawn::scene("quay-02.toml"), quay02());
    compare(drawn::scene("quay-03.toml"), quay03());
}

TEST_CASE("a late trip as pressure builds agrees with an independent integration", "[reference]") {
    Installation drawn = drawn::scene("quay-01.toml");
    drawn::runOf(drawn, "twin").length_m = 65;
    drawn::unitOf(drawn).spin_up_s = 2;
    drawn::unitOf(drawn).build_s = 4;
    ode::Setup setup = quay01();
    setup.loop_ohm += 2 * class_5_6_tinned * (65 - 4.5) * 1e-3;
    setup.loop_henry += 0.3e-6 * 2 * (65 - 4.5);
    setup.unit.spin_up_s = 2;
    setup.unit.build_s = 4;
    setup.end_s = 15;
    const ode::Result reference = ode::solve(setup);
    const Start ours = runs::run(drawn, {.attempts = 1}).start;
    REQUIRE(reference.outcome == "trips");
    CHECK(ours.outcome == Outcome::Trips);
    REQUIRE(ours.attempts.front().end_s > 3); // well after full speed
    compareEvents(ours, reference, setup.call_s, setup.end_s);
}
