// SPDX-License-Identifier: MIT
// Films on joints, joints that open by chance, strands that are broken, an engine that cranks.
#include "drawn.h"
#include "runs.h"
#include "scratch.h"
#include "small_circuit.h"

#include "ebbline/network.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

using namespace ebbline;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

/// The loop with the joint at the fridge's plus changed.
Installation withJoint(const Joint& joint) {
    Installation drawn = drawn::loop({});
    drawn::runOf(drawn, "third").cores.front().joint_to = joint;
    return drawn;
}

const LedgerRow& rowOf(const Ledger& ledger, const std::string& element) {
    const auto row = std::ranges::find(ledger.rows, element, &LedgerRow::element);
    REQUIRE(row != ledger.rows.end());
    return *row;
}

std::string worstOf(const Ledger& ledger) {
    return std::ranges::max_element(ledger.rows, {}, &LedgerRow::volts)->element;
}

} // namespace

TEST_CASE("a film loses what its law says at every current", "[joint]") {
    // models/README.md: v = R i + film_v tanh(i film / film_v); ESTIMATE for its shape.
    const double metal_ohm = 2e-3;
    const double film_ohm = 0.4;
    const double film_v = 0.3;
    const Solved solved = small_circuit::solve(
        {.cards = "v1 p 0 1\ni1 0 a pwl(0 -20 1 20)\nx1 a 0 p film resistance_mohm=2 "
                  "film_mohm=400 film_v=0.3\n",
         .models = {"film"},
         .vectors = {"v(a)", "v.x1.vi#branch"},
         .stop_s = 1,
         .step_s = 1e-3});
    REQUIRE(solved.time_s.size() > 900);
    double largest_a = 0;
    for (std::size_t i = 0; i < solved.time_s.size(); ++i) {
        const double amps = solved.vectors[1][i];
        largest_a = std::max(largest_a, amps);
        CHECK_THAT(
            solved.vectors[0][i],
            WithinAbs(metal_ohm * amps + film_v * std::tanh(amps * film_ohm / film_v), 1e-6));
    }
    CHECK(largest_a > 19);
}

TEST_CASE("a filmed joint reads high with a meter and holds no more than its film", "[joint]") {
    const Joint filmed{.resistance_mohm = 2, .film_mohm = 400, .film_v = 0.3};
    const Installation drawn = withJoint(filmed);
    const Network network = network::build(drawn, catalogues());
    const auto element = std::ranges::find(network.elements, "third.to", &Element::name);
    REQUIRE(element != network.elements.end());
    CHECK_THAT(element->ohm, WithinRel(0.402, 1e-12));
    const Start start = runs::run(drawn, {.accuracy = Accuracy::Final, .attempts = 1}).start;
    const LedgerRow& row = rowOf(start.ledger.value(), "third.to");
    CHECK(row.amps > 4);
    CHECK_THAT(row.volts, WithinAbs(2e-3 * row.amps + 0.3 * std::tanh(row.amps * 0.4 / 0.3), 1e-5));
    // As much as Ohm's law would say of it were lost many times over.
    CHECK(row.volts < 0.25 * 0.402 * row.amps);
    CHECK(std::abs(start.ledger.value().error()) < 1e-3 + 1e-4 * 12);
}

TEST_CASE("a joint opens by chance as often and as long as it says", "[joint]") {
    std::vector<double> waits;
    for (int seed = 1; seed <= 200; ++seed) {
        const Installation drawn = withJoint(
            {.opens_per_min = 30, .opens_ms = 40, .opens_seed = static_cast<double>(seed)});
        const Network network = network::build(drawn, catalogues());
        const auto element = std::ranges::find(network.elements, "third.to", &Element::name);
        REQUIRE(element != network.elements.end());
        double closed_s = 0;
        for (std::size_t i = 0; i + 1 < element->openings.size(); i += 2) {
            CHECK_FALSE(element->openings[i].second);
            CHECK(element->openings[i + 1].second);
            CHECK_THAT(element->openings[i + 1].first - element->openings[i].first,
                       WithinAbs(0.04, 1e-9));
            waits.push_back(element->openings[i].first - closed_s);
            closed_s = element->openings[i + 1].first;
        }
    }
    // Exponential waits, textbook: mean and deviation are both 60 s / 30; five of the mean's own
    // deviations. Those past the end of the list are missing, which shortens the mean by 0.7 %.
    const auto count = static_cast<double>(waits.size());
    REQUIRE(count > 20000);
    double mean_s = 0;
    for (const double wait_s : waits)
        mean_s += wait_s / count;
    CHECK_THAT(mean_s, WithinAbs(2, 0.014 + 5 * 2 / std::sqrt(count)));
    const auto longer = std::ranges::count_if(waits, [](double wait_s) { return wait_s > 2; });
    CHECK_THAT(static_cast<double>(longer) / count, WithinAbs(std::exp(-1), 0.02));
}

TEST_CASE("a joint that opens stops the fridge, the same for the same seed", "[joint]") {
    const auto start = [](double seed, double opens_ms) {
        return runs::run(withJoint({.opens_per_min = 60, .opens_ms = opens_ms, .opens_seed = seed}),
                         {.accuracy = Accuracy::Final, .attempts = 1})
            .start;
    };
    const Start first = start(3, 60);
    CHECK(first.outcome == Outcome::Trips);
    CHECK(worstOf(first.ledger.value()) == "third.to");
    CHECK(start(3, 60).events == first.events);
    CHECK(start(4, 60).events != first.events);
    CHECK(runs::run(withJoint({}), {.attempts = 1}).start.outcome == Outcome::Starts);
}

TEST_CASE("a joint that opens by itself is said to", "[joint]") {
    const Scratch scratch;
    const auto path = scratch.path() / "loose.toml";
    std::ofstream(path) << file::write(
        withJoint({.opens_per_min = 60, .opens_ms = 60, .opens_seed = 3}));
    const runs::Output said = runs::program("start '" + path.string() + "'");
    CHECK_THAT(said.text, Catch::Contains("third.to opens by itself now and then"));
    CHECK_THAT(said.text, Catch::Contains("  open mΩ"));
    CHECK_THAT(said.text, Catch::Contains("On paper: third.to: open"));
}

TEST_CASE("a joint that opens makes more points usual, so that no such run is halted", "[joint]") {
    const RunSettings held_off{.accuracy = Accuracy::Draft, .held_off = true, .attempts = 1};
    const auto still = runs::run(withJoint({}), held_off);
    const auto loose =
        runs::run(withJoint({.opens_per_min = 60, .opens_ms = 60, .opens_seed = 3}), held_off);
    // As many as would have been halted without counting the openings.
    CHECK(loose.solved.time_s.size() > still.netlist.job.usual_points);
    CHECK(loose.solved.time_s.size() < loose.netlist.job.usual_points);
}

TEST_CASE("broken strands raise the resistance by what is left of them", "[joint]") {
    Installation drawn = drawn::loop({});
    const Network whole = network::build(drawn, catalogues());
    drawn::runOf(drawn, "third").broken_pct = 60;
    const Network broken = network::build(drawn, catalogues());
    double whole_ohm = 0;
    double broken_ohm = 0;
    for (std::size_t i = 0; i < whole.elements.size(); ++i)
        if (whole.elements[i].part == "third" && whole.elements[i].kind == ElementKind::Conductor) {
            whole_ohm += whole.elements[i].ohm;
            broken_ohm += broken.elements[i].ohm;
        }
    CHECK_THAT(broken_ohm, WithinRel(whole_ohm / 0.4, 1e-12));
}

TEST_CASE("an engine that cranks on the fridge's battery drops it below the cut-out", "[load]") {
    const auto gave_up_at = [](const char* battery) {
        Installation drawn = drawn::loop({.charge_pct = 50});
        std::get<Battery>(drawn.parts.front().body).capacity_ah = 60;
        Part starter{.id = "starter", .body = Load{}};
        for (const auto& [name, value] : catalogues().parts.at("load").at("starter-motor"))
            installation::set(starter, *installation::findKey("load", name), value);
        drawn::addPart(drawn, "spare", Battery{}, {{{"spare", "minus"}, {"house", "minus"}}});
        drawn::addPart(
            drawn,
            "starter",
            starter.body,
            {{{battery, "plus"}, {"starter", "plus"}}, {{"starter", "minus"}, {battery, "minus"}}});
        drawn.events = {{.at_s = 3, .set = {Set{"starter.on", true}}},
                        {.at_s = 5, .set = {Set{"starter.on", false}}}};
        std::optional<double> at_s;
        for (const StartEvent& event : runs::run(drawn, {.attempts = 1}).start.events)
            if (event.what == Happening::GaveUp && !at_s)
                at_s = event.at_s;
        return at_s;
    };
    const auto shared_s = gave_up_at("house");
    REQUIRE(shared_s.has_value());
    CHECK(*shared_s > 3);
    CHECK(*shared_s < 3.2);
    CHECK_FALSE(gave_up_at("spare").has_value());
}
