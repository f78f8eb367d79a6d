// SPDX-License-Identifier: MIT
// A day of cycling: against stepping it second by second, closed forms, balances.
#include "day_by_seconds.h"
#include "drawn.h"
#include "runs.h"
#include "study/characteristics.h"
#include "study/steady.h"

#include "ebbline/hours.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace ebbline;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// One and the same installation for both.
struct Case {
    const char* name = "";
    double length_m = 5;
    double capacity_ah = 100;
    double charge_pct = 80;
    double age_pct = 0;
    double ambient_c = 20;
    BoxLoad box;
    double load_a = 0;
    double load_from_h = 0;
    double load_to_h = 0;
    double charger_a = 0;
    double charger_from_h = 0;
    double charger_to_h = 0;
};

void switchAt(Installation& drawn, const std::string& path, double hour, bool on) {
    drawn.events.push_back({.at_s = hour * 3600, .set = {{path, on}}});
    std::ranges::sort(drawn.events, {}, &Event::at_s);
}

Installation draw(const Case& one) {
    Installation drawn = drawn::loop({.length_m = one.length_m, .charge_pct = one.charge_pct});
    auto& battery = std::get<Battery>(drawn.parts[0].body);
    battery.capacity_ah = one.capacity_ah;
    battery.age_pct = one.age_pct;
    drawn.surroundings.ambient_c = one.ambient_c;
    const auto on_battery = [&](const std::string& id, Body body, double from_h, double to_h) {
        drawn::addPart(drawn,
                       id,
                       std::move(body),
                       {{{id, "plus"}, {"house", "plus"}}, {{id, "minus"}, {"house", "minus"}}});
        switchAt(drawn, id + ".on", from_h, true);
        switchAt(drawn, id + ".on", to_h, false);
    };
    if (one.load_a > 0)
        on_battery("lamps",
                   Load{.law = "current", .current_a = one.load_a, .on = false},
                   one.load_from_h,
                   one.load_to_h);
    if (one.charger_a > 0)
        on_battery("sun",
                   Charger{.current_a = one.charger_a, .on = false},
                   one.charger_from_h,
                   one.charger_to_h);
    return drawn;
}

/// Four conductors of 2.5 mm2 tinned, 8.21 mohm/m at 20 C (IEC 60228), twice the length in all;
/// eight joints of 0.3 mohm, an isolator of 1 mohm.
seconds::Setup bySeconds(const Case& one) {
    const double warm = (234.5 + one.ambient_c) / 254.5;
    return {.capacity_ah = one.capacity_ah,
            .charge = one.charge_pct / 100,
            .age = one.age_pct / 100,
            .ambient_c = one.ambient_c,
            .loop_ohm = 2 * one.length_m * 8.21e-3 * warm + 8 * 0.3e-3 + 1e-3,
            .w_per_k = one.box.w_per_k,
            .j_per_k = one.box.kj_per_k * 1e3,
            .inside_c = one.box.inside_c,
            .band_k = one.box.band_k,
            .cop = one.box.cop,
            .load_a = one.load_a,
            .load_from_h = one.load_from_h,
            .load_to_h = one.load_to_h,
            .charger_a = one.charger_a,
            .charger_from_h = one.charger_from_h,
            .charger_to_h = one.charger_to_h};
}

Hours hoursOf(const Installation& drawn, const BoxLoad& box) {
    const auto pool = runs::makePool();
    return study::runHours(*pool, drawn, file::embeddedModels(), box, [](const std::string&) {});
}

void checkBalances(const Hours& hours, const BoxLoad& box) {
    const DayTotals& totals = hours.day.totals;
    CHECK_THAT(totals.battery_ah,
               WithinAbs(totals.fridge_ah + totals.loads_ah - totals.charged_ah, 1e-3));
    CHECK_THAT(totals.heat_in_kj - totals.heat_out_kj,
               WithinAbs(box.kj_per_k * totals.warming_k, 1e-3 * totals.heat_in_kj));
}

/// The highest limit; 0 where every start on the way succeeds.
double limitOf(const Hours& hours) {
    return hours.limits.empty() ? 0 : hours.limits.front().charge;
}

void checkDay(const Case& one, const Hours& hours) {
    constexpr double ah_share = 0.01;
    seconds::Setup setup = bySeconds(one);
    setup.start_limit = limitOf(hours);
    const seconds::Result stepped = seconds::step(setup);
    const DayTotals& totals = hours.day.totals;
    CAPTURE(stepped.starts, totals.starts, stepped.running_share, totals.running_s / 86400);
    CHECK_THAT(totals.fridge_ah, WithinRel(stepped.fridge_ah, ah_share));
    CHECK_THAT(totals.loads_ah, WithinAbs(stepped.loads_ah, ah_share * (stepped.loads_ah + 0.01)));
    CHECK_THAT(totals.charged_ah,
               WithinAbs(stepped.charged_ah, ah_share * (stepped.charged_ah + 0.01)));
    CHECK(std::abs(totals.starts - stepped.starts) <= 1);
}

void checkEnd(const Case& one, const Hours& hours) {
    constexpr double hour_share = 0.02;
    seconds::Setup setup = bySeconds(one);
    setup.to_the_end = true;
    setup.until_h = 240;
    const seconds::Result stepped = seconds::step(setup);
    CAPTURE(stepped.flat_h.value_or(-1), hours.flat_h.value_or(-1));
    CHECK(stepped.cut_out_h.has_value() == hours.cut_out_h.has_value());
    if (stepped.cut_out_h && hours.cut_out_h)
        CHECK_THAT(*hours.cut_out_h, WithinRel(*stepped.cut_out_h, hour_share));
    if (hours.flat_h)
        CHECK_THAT(*hours.flat_h, WithinRel(stepped.flat_h.value_or(-1), hour_share));
    if (!hours.start_fails_h)
        return;
    setup.start_limit = limitOf(hours);
    CHECK_THAT(*hours.start_fails_h,
               WithinRel(seconds::step(setup).start_fails_h.value_or(-1), hour_share));
}

const Case lasting{.name = "lasts for days"};
const Case failing{.name = "small battery, thin cable, a hot day",
                   .length_m = 10.5,
                   .capacity_ah = 16,
                   .charge_pct = 100,
                   .age_pct = 50,
                   .ambient_c = 32};
const Case thin{.name = "cable so thin that running itself ends at the cut-out",
                .length_m = 16,
                .capacity_ah = 16,
                .charge_pct = 90,
                .age_pct = 50,
                .ambient_c = 32};
const Case charged{.name = "charged for some hours, lamps in the evening",
                   .length_m = 8,
                   .capacity_ah = 60,
                   .charge_pct = 60,
                   .ambient_c = 26,
                   .box = {.w_per_k = 1.4, .band_k = 3},
                   .load_a = 2,
                   .load_from_h = 18,
                   .load_to_h = 22,
                   .charger_a = 6,
                   .charger_from_h = 9,
                   .charger_to_h = 13};

} // namespace

TEST_CASE("a day agrees with stepping it second by second", "[hours]") {
    for (const Case& one : {lasting, failing, thin, charged}) {
        CAPTURE(one.name);
        const Hours hours = hoursOf(draw(one), one.box);
        checkDay(one, hours);
        checkEnd(one, hours);
        checkBalances(hours, one.box);
    }
}

TEST_CASE("starts fail before running does, and where real starts do", "[hours]") {
    const Hours starved = hoursOf(draw(thin), thin.box);
    REQUIRE(starved.cut_out_h);
    CHECK(*starved.cut_out_h > 1);
    CHECK(*starved.cut_out_h < 24);
    CHECK(starved.day.totals.starts == 0); // its starts fail from the beginning
    const Hours small = hoursOf(draw(failing), failing.box);
    REQUIRE(small.start_fails_h);
    CHECK(*small.start_fails_h > 0);
    CHECK(*small.start_fails_h < 24);
    CHECK(small.day.totals.starts > 0);
    CHECK(small.day.totals.failed_starts > 0);
    // Real starts on either side of the limit.
    const auto starts_at = [](double charge) {
        Case there = failing;
        there.charge_pct = 100 * charge;
        return runs::run(draw(there), {.attempts = 1}).start.outcome;
    };
    CHECK(starts_at(limitOf(small) + 0.005) == Outcome::Starts);
    CHECK(starts_at(limitOf(small) - 0.005) != Outcome::Starts);
}

TEST_CASE("with a narrow band the running share is heat over cooling", "[hours]") {
    const Case one{.box = {.kj_per_k = 40, .band_k = 0.2}};
    const Hours hours = hoursOf(draw(one), one.box);
    const DayTotals& totals = hours.day.totals;
    const double heat_w = one.box.w_per_k * (one.ambient_c - one.box.inside_c);
    double running_w = 0;
    double samples = 0;
    for (const DaySample& sample : hours.day.samples)
        if (sample.running) {
            running_w += sample.fridge_v * sample.fridge_a;
            ++samples;
        }
    REQUIRE(samples > 0);
    const double cooling_w = 1.3 * 55 / 50 * running_w / samples; // 20 C: 50 K of lift, not 55
    CHECK_THAT(totals.running_s / 86400, WithinRel(heat_w / cooling_w, 0.01));
    CHECK_THAT(totals.heat_in_kj, WithinRel(heat_w * 86.4, 0.002));
    checkBalances(hours, one.box);
}

TEST_CASE("steady points are what the equations say", "[hours]") {
    const Installation drawn = draw(lasting);
    const Network network =
        network::reduce(network::build(drawn, file::embeddedModels().catalogues));
    const auto pool = runs::makePool();
    const Characteristics found = study::characterize(*pool, network, file::embeddedModels());
    REQUIRE(found.unit.size() == 9);
    for (const UnitPoint& point : found.unit) {
        CAPTURE(point.volts);
        CHECK_THAT(point.running_w,
                   WithinRel(seconds::runningWatts(Controller{}, point.volts), 0.003));
        CHECK_THAT(point.idle_w, WithinAbs(0.4 + point.volts * point.volts / 1e5, 0.002));
    }
    REQUIRE(found.batteries.size() == 1);
    REQUIRE(found.batteries[0].size() == 21);
    CHECK_THAT(found.batteries[0].back().open_v, WithinAbs(12.65, 1e-4));
    CHECK_THAT(found.batteries[0][5].open_v, WithinAbs(12.06, 1e-4));
    CHECK_THAT(found.batteries[0].back().ohm, WithinRel(0.004, 0.003));
    CHECK_THAT(found.batteries[0].front().ohm, WithinRel(0.004 * 2.5625, 0.003));
}

TEST_CASE("the steady network agrees with the end of a simulated start", "[hours]") {
    constexpr double unsettled_v =
        0.04; // the slow RC pair, and pressures after three of their times
    int compared = 0;
    for (const char* name : {"quay-01.toml", "quay-05.toml", "van-01.toml", "cabin-02.toml"}) {
        CAPTURE(name);
        Installation drawn = drawn::scene(name);
        const Start start = runs::run(drawn, {.attempts = 1}).start;
        REQUIRE(start.running_v);
        const Network network =
            network::reduce(network::build(drawn, file::embeddedModels().catalogues));
        const auto pool = runs::makePool();
        const Characteristics found = study::characterize(*pool, network, file::embeddedModels());
        study::Steady steady(network, found);
        study::Moment moment{.running = true};
        for (const Part& part : drawn.parts)
            if (const auto* battery = std::get_if<Battery>(&part.body))
                moment.charges.push_back(battery->charge_pct / 100);
        for (const Element& element : network.elements)
            moment.switches.push_back(
                element.switchings.empty() ? element.closed : element.switchings.back().second);
        const study::Flow flow = steady.solve(moment);
        CHECK_THAT(flow.fridge_v, WithinAbs(*start.running_v, unsettled_v));
        ++compared;
    }
    CHECK(compared == 4);
}

TEST_CASE("a box that stays cold by itself is never called", "[hours]") {
    Case one{.ambient_c = -5};
    const Hours hours = hoursOf(draw(one), one.box);
    CHECK(hours.day.never_called);
    CHECK(hours.day.totals.starts == 0);
    CHECK(hours.day.totals.fridge_ah > 0); // its electronics
    CHECK(hours.day.totals.fridge_ah < 1);
}

TEST_CASE("a box that takes in more than is carried out keeps the compressor running", "[hours]") {
    Case one{.capacity_ah = 400, .ambient_c = 35, .box = {.w_per_k = 3}};
    const Hours hours = hoursOf(draw(one), one.box);
    CHECK(hours.day.overloaded);
    CHECK(hours.day.totals.starts == 1);
    CHECK_THAT(hours.day.totals.running_s, WithinAbs(86400, 1));
    checkBalances(hours, one.box);
}

TEST_CASE("a lamp in the evening does not lengthen a start", "[hours]") {
    const auto stop_of = [](double hour) {
        Installation drawn = draw({.load_a = 2});
        for (Event& event : drawn.events)
            event.at_s = hour * 3600;
        const Models& models = file::embeddedModels();
        return netlist::build(network::build(drawn, models.catalogues), models, {}).job.stop_s;
    };
    CHECK(stop_of(18) == stop_of(0));
    CHECK_THAT(stop_of(0.5), WithinAbs(stop_of(0) + 1800, 1e-6));
}

TEST_CASE("the keys of a controller say what its box is like", "[hours]") {
    const BoxLoad box = study::boxOf(
        {.box_w_per_k = 2, .box_kj_per_k = 30, .inside_c = 3, .band_k = 1, .cop = 1.1});
    CHECK((box == BoxLoad{.w_per_k = 2, .kj_per_k = 30, .inside_c = 3, .band_k = 1, .cop = 1.1}));
    CHECK((study::boxOf({}) == BoxLoad{}));
    // No circuit has them: the same start with another box.
    Installation drawn = draw(lasting);
    const Models& models = file::embeddedModels();
    const auto circuit_of = [&] {
        return netlist::build(network::build(drawn, models.catalogues), models, {}).job.circuit;
    };
    const std::string before = circuit_of();
    drawn::unitOf(drawn).box_w_per_k = 7;
    CHECK(circuit_of() == before);
    CHECK(before.find("box_w_per_k") == std::string::npos);
}

TEST_CASE("without a battery that feeds the fridge there is no day", "[hours]") {
    Installation drawn = draw(lasting);
    std::erase_if(drawn.runs, [](const Run& run) { return run.id == "return"; });
    CHECK_THROWS_WITH(hoursOf(drawn, {}), Catch::Contains("no battery feeds the fridge"));
}
