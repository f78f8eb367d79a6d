// SPDX-License-Identifier: MIT
// Every kind of part in a circuit that runs, against its own closed form.
#include "drawn.h"
#include "runs.h"
#include "start/trace.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace ebbline;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// A device between a stiff source of `volts` with 10 mohm and its minus, run alone; the current
/// out of the source at its end.
struct Alone {
    std::string card; ///< device between nodes a and 0, its position at node p
    std::string model;
    double volts = 12;
    double stop_s = 1;
    std::string position = "1";
};

std::pair<Solved, std::size_t> run(const Alone& alone) {
    Job job{.vectors = {"v(a)", "v1#branch"}, .stop_s = alone.stop_s, .highest_v = 100};
    job.circuit = "* alone\n.options method=trap reltol=1e-6 abstol=1e-9 vntol=1e-9\nv1 b 0 " +
                  text::number(alone.volts) + "\nr1 b a 0.01\nvp p 0 " + alone.position + "\n" +
                  alone.card + "\n.save v(a) v1#branch\n.tran 1e-3 " + text::number(alone.stop_s) +
                  " 0 1e-3 uic\n" + file::embeddedModels().circuits.at(alone.model) + ".end\n";
    return {study::requireSolved(runs::makePool(1)->run({&job, 1}).front()), 1};
}

double currentOf(const Alone& alone) {
    const auto [solved, vector] = run(alone);
    return -solved.vectors[vector].back();
}

/// Element of a network by name.
const Element& elementOf(const Network& network, const std::string& name) {
    const auto place = std::ranges::find(network.elements, name, &Element::name);
    REQUIRE(place != network.elements.end());
    return *place;
}

Installation withPart(const Part& part, const std::vector<Run>& more) {
    Installation drawn = drawn::loop({});
    drawn.parts.push_back(part);
    drawn.runs.insert(drawn.runs.end(), more.begin(), more.end());
    return drawn;
}

Run lead(const char* id, Terminal from, Terminal to) {
    const Joint none{.kind = "none"};
    return {.id = id,
            .cores = {{.from = std::move(from),
                       .to = std::move(to),
                       .joint_from = none,
                       .joint_to = none}},
            .length_m = 0.1};
}

} // namespace

TEST_CASE("loads draw by their law", "[parts]") {
    // V = 12 behind 10 mohm: R: V / (R + r); current: I; power: the upper root of V i - r i^2 = P.
    CHECK_THAT(currentOf({"x1 a 0 p load_resistance resistance_ohm=2.4 on=1", "load_resistance"}),
               WithinRel(12 / 2.41, 1e-4));
    CHECK_THAT(currentOf({"x1 a 0 p load_current current_a=7 on=1", "load_current"}),
               WithinRel(7.0, 1e-4));
    const double power_a = (12 - std::sqrt(144 - 4 * 0.01 * 90)) / (2 * 0.01);
    CHECK_THAT(currentOf({"x1 a 0 p load_power power_w=90 on=1", "load_power"}),
               WithinRel(power_a, 1e-4));
    CHECK_THAT(currentOf({"x1 a 0 p load_power power_w=90", "load_power", 12, 1, "0"}),
               WithinAbs(0, 1e-6));
    // The wrong way round a load takes as much, and is no source.
    for (const auto& [card, model] :
         {std::pair{"x1 a 0 p load_current current_a=7 on=1", "load_current"},
          std::pair{"x1 a 0 p load_power power_w=90 on=1", "load_power"}})
        CHECK_THAT(currentOf({card, model, -12}), WithinRel(-currentOf({card, model}), 1e-6));
}

TEST_CASE("a load that is switched on draws its start current, which dies away", "[parts]") {
    // At t after switching on: I (1 + (k - 1) exp(-t / tau)).
    const auto [solved, vector] =
        run({"x1 a 0 p load_current current_a=5 start_times=4 start_s=0.3",
             "load_current",
             12,
             2,
             "pwl(0 0 0.5 0 0.5001 1)"});
    const std::vector<double>& amps = solved.vectors[vector];
    const auto current = [&amps, &time_s = solved.time_s](double at_s) {
        return -start::valueAt(time_s, amps, at_s);
    };
    CHECK_THAT(current(0.45), WithinAbs(0, 1e-3));
    for (const double after_s : {0.05, 0.3, 0.9})
        CHECK_THAT(current(0.5 + after_s), WithinRel(5 * (1 + 3 * std::exp(-after_s / 0.3)), 2e-3));
}

TEST_CASE("a charging source holds its voltage up to its limit and takes nothing back", "[parts]") {
    // Into a stiff source behind 10 mohm: (14.4 - V) / (10 + 10 mohm), at most the limit.
    const auto into = [](double volts) {
        return -currentOf({"x1 0 a p charger voltage_v=14.4 current_a=20 resistance_mohm=10 on=1",
                           "charger",
                           volts});
    };
    CHECK_THAT(into(14.2), WithinRel(0.2 / 0.02, 1e-3));
    CHECK_THAT(into(12), WithinRel(20.0, 1e-3));
    CHECK_THAT(into(15), WithinAbs(0, 1e-6));
}

TEST_CASE("a breaker opens when its two thermal states say so", "[parts]") {
    // From models/README.md: 0.5 (1 - exp(-t / 3)) + 0.5 (1 - exp(-t / 90)) = 1.3225 / x^2.
    for (const double times : {1.35, 1.6, 2.0, 3.0}) {
        CAPTURE(times);
        const auto heat = [&](double t_s) {
            return times * times * (1 - 0.5 * std::exp(-t_s / 3) - 0.5 * std::exp(-t_s / 90));
        };
        double low_s = 0;
        double high_s = 1000;
        while (high_s - low_s > 1e-9) {
            const double middle_s = (low_s + high_s) / 2;
            (heat(middle_s) < 1.3225 ? low_s : high_s) = middle_s;
        }
        // A current source in parallel with 1 kohm, so that the breaker may open.
        Job job{.vectors = {"v(x1.open)"}, .stop_s = 1.2 * high_s, .highest_v = 1e5};
        job.circuit = "* breaker\n.options method=trap reltol=1e-6 abstol=1e-9 vntol=1e-9 "
                      "chgtol=1e-4\ni1 0 a " +
                      text::number(10 * times) +
                      "\nr1 a 0 1000\nx1 a 0 breaker rating_a=10\n.save v(x1.open)\n.tran 1e-2 " +
                      text::number(1.2 * high_s) + " 0 1e-2 uic\n" +
                      file::embeddedModels().circuits.at("breaker") + ".end\n";
        const Solved solved = study::requireSolved(runs::makePool(1)->run({&job, 1}).front());
        const auto opened_s =
            start::findCrossing(solved.time_s, solved.vectors[0], 0.5, true, 0, 1.2 * high_s);
        REQUIRE(opened_s.has_value());
        CHECK_THAT(*opened_s, WithinRel(low_s, 1e-3));
    }
}

TEST_CASE("connectors, splices, panels, bonds and bench leads are the sum of what they hold",
          "[parts]") {
    const Catalogues& catalogues = file::embeddedModels().catalogues;
    const auto ohm = [&](const Installation& drawn, const std::string& name) {
        return elementOf(network::build(drawn, catalogues), name).ohm;
    };
    const Installation plug = withPart(
        {.id = "socket", .body = Plug{.minus = {.kind = "plug-contact", .condition = "tired"}}},
        {});
    CHECK(ohm(plug, "socket.plus") == 2e-3);
    CHECK(ohm(plug, "socket.minus") == 8e-3);
    const Installation board = withPart({.id = "board", .body = Panel{}},
                                        {lead("tap", {"board", "3"}, {"house", "plus"})});
    CHECK(ohm(board, "board.rail") == 0.3e-3);
    CHECK(ohm(board, "board.3") == 1.5e-3);
    const Network wired = network::build(board, catalogues);
    CHECK(std::ranges::find(wired.elements, "board.1", &Element::name) == wired.elements.end());
    Installation strap = withPart({.id = "body", .body = Chassis{.material = "steel-frame"}}, {});
    strap.parts.push_back(
        {.id = "strap",
         .body = Bond{.to = "body", .lug = {.kind = "bond", .condition = "corroded"}}});
    CHECK(ohm(strap, "strap.lug") == 150e-3);
    CHECK(ohm(strap, "strap.metal") == 0.3e-3);
    const Installation leads = withPart({.id = "leads", .body = BenchLeads{.length_m = 2}}, {});
    // IEC 60228:2004 table 3: 4 mm2 plain class 5, 4.95 ohm/km at 20 C.
    CHECK_THAT(ohm(leads, "leads.plus"), WithinRel(2 * 4.95e-3, 1e-12));
    CHECK_THAT(ohm(leads, "leads.fuse"), WithinRel((4.7 + 2) * 1e-3, 1e-12));
    CHECK(ohm(leads, "leads.to-minus") == 1e-3);
}

TEST_CASE("what is pulled apart, taken off or switched off does not conduct", "[parts]") {
    const auto outcome = [](const std::vector<Change>& changes) {
        Installation drawn = drawn::loop({});
        // The third conductor goes by way of a plug.
        drawn::runOf(drawn, "third").cores[0].to = {"socket", "in-plus"};
        drawn.parts.push_back({.id = "socket", .body = Plug{}});
        drawn.runs.push_back(lead("tail", {"socket", "out-plus"}, {"fridge", "plus"}));
        return runs::run(installation::apply(drawn, changes), {.attempts = 1}).start.outcome;
    };
    CHECK(outcome({}) == Outcome::Starts);
    CHECK(outcome({Set{"socket.mated", false}}) == Outcome::NotPowered);
    CHECK(outcome({Open{"tail.to"}}) == Outcome::NotPowered);
    CHECK(outcome({Open{"socket.plus"}}) == Outcome::NotPowered);
    CHECK(outcome({Open{"return.from"}}) == Outcome::NotPowered);
    CHECK(outcome({Open{"return.from"}, Bridge{{"house", "minus"}, {"fridge", "minus"}}}) ==
          Outcome::Starts);
}

TEST_CASE("an event pulls a plug, and the fridge is without supply from then on", "[parts]") {
    Installation drawn = drawn::loop({});
    drawn::runOf(drawn, "third").cores[0].to = {"socket", "in-plus"};
    drawn.parts.push_back({.id = "socket", .body = Plug{}});
    drawn.runs.push_back(lead("tail", {"socket", "out-plus"}, {"fridge", "plus"}));
    drawn.parts.push_back(
        {.id = "volts", .body = Meter{.plus = {"fridge", "plus"}, .minus = {"house", "minus"}}});
    drawn.events = {{.at_s = 5, .set = {{"socket.mated", false}}}};
    const Start start = runs::run(drawn, {.attempts = 1}).start;
    CHECK(start.outcome == Outcome::Trips);
    const auto gave_up = std::ranges::find(start.events, Happening::GaveUp, &StartEvent::what);
    REQUIRE(gave_up != start.events.end());
    CHECK(gave_up->at_s > 5);
    CHECK(gave_up->at_s < 5.2);
    REQUIRE(start.meters.size() == 1);
    CHECK(start.meters[0].meter == "volts");
    CHECK(start.meters[0].lowest_v < 1);
    CHECK(start.meters[0].highest_v > 12);
}

TEST_CASE("a meter on the fridge reads what the fridge has", "[parts]") {
    Installation drawn = drawn::loop({});
    drawn.parts.push_back(
        {.id = "volts", .body = Meter{.plus = {"fridge", "plus"}, .minus = {"fridge", "minus"}}});
    const Start start = runs::run(drawn, {.attempts = 1}).start;
    CHECK_THAT(start.meters.at(0).at_lowest_v.value(), WithinAbs(start.lowest_v.value(), 1e-9));
    // 10 Mohm across the terminals is no load: the start is as without it.
    CHECK_THAT(
        start.sensed_lowest_v.value(),
        WithinAbs(runs::run(drawn::loop({}), {.attempts = 1}).start.sensed_lowest_v.value(), 1e-4));
}

TEST_CASE("the fridge's loop is that of the nearer of two batteries", "[parts]") {
    Installation drawn = drawn::loop({});
    drawn.parts.insert(drawn.parts.begin(), {.id = "far", .body = Battery{}});
    Run along = lead("along", {"far", "plus"}, {"house", "plus"});
    along.length_m = 20;
    drawn.runs.push_back(along);
    drawn.runs.push_back(lead("back", {"far", "minus"}, {"house", "minus"}));
    const Network network = network::build(drawn, file::embeddedModels().catalogues);
    CHECK(network.elements[static_cast<std::size_t>(network.loop->battery)].name == "house");
}
