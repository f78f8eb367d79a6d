// SPDX-License-Identifier: MIT
// Every scene through the whole spine: outcome, stock ngspice, accuracy, ledger.
#include "drawn.h"
#include "raw_file.h"
#include "runs.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double headroom_step_v = 1e-3;

std::vector<RunSettings> allSettings() {
    std::vector<RunSettings> all;
    for (const int attempts : {1, 2, 3})
        all.push_back({.attempts = attempts});
    all.push_back({.held_off = true, .attempts = 1});
    return all;
}

/// Largest allowed sum error: 1 mV + 0.01 % of the source. A current is known to 1 uA (`abstol`),
/// which a fuse that is parting turns into volts.
double ledgerBound(const Ledger& ledger) {
    const auto ohms = [](const LedgerRow& row) { return std::abs(row.ohms.value_or(0)); };
    return 1e-3 + 1e-4 * ledger.source_v +
           1e-6 * ohms(*std::ranges::max_element(ledger.rows, {}, ohms));
}

/// Scenes whose compressor is driven until it runs or the cut-out acts.
std::vector<std::string> drivenScenes() {
    std::vector<std::string> names;
    for (const std::string& name : drawn::sceneNames()) {
        const Outcome outcome = runs::run(drawn::scene(name), {.attempts = 1}).start.outcome;
        if (outcome == Outcome::Starts || outcome == Outcome::Trips)
            names.push_back(name);
    }
    return names;
}

/// The run of most resistance in the supply loop.
Run& weakestRun(Installation& installation) {
    const Network network = network::build(installation, file::embeddedModels().catalogues);
    const Element* most = nullptr;
    for (const auto& way : {network.loop.value().out, network.loop.value().back})
        for (const Step& step : way) {
            const Element& element = network.elements[static_cast<std::size_t>(step.element)];
            if (element.kind == ElementKind::Conductor &&
                (most == nullptr || element.ohm > most->ohm))
                most = &element;
        }
    REQUIRE(most != nullptr);
    return drawn::runOf(installation, most->part);
}

} // namespace

TEST_CASE("one scene starts, one gives up and tries again, the bench proof starts", "[scenes]") {
    const Examination quay = runs::examine(drawn::scene("quay-01.toml"));
    CHECK(quay.start.outcome == Outcome::Starts);
    CHECK(quay.start.retries == 0);

    const Examination river = runs::examine(drawn::scene("quay-02.toml"));
    CHECK(river.start.outcome == Outcome::Trips);
    CHECK(river.start.retries == 2);
    CHECK(river.verdict.headroom_v.value() < 0);
    CHECK(river.loop_limit_ohm.value() < river.loop_ohm);
    // The greatest loss is cable; joints and fuse together are a small part of it.
    const auto& rows = river.start.ledger->rows;
    const auto largest = std::ranges::max_element(rows, {}, &LedgerRow::volts);
    CHECK((largest->element == "twin.1" || largest->element == "twin.2"));

    // Common practice, no source: charged battery, leads under 2 m of 2.5 mm2, 15 A fuse: starts.
    const Examination bench = runs::examine(drawn::scene("quay-03.toml"));
    CHECK(bench.start.outcome == Outcome::Starts);
    CHECK(bench.verdict.margin == Margin::Clear);
}

TEST_CASE("stock ngspice gives bit-identical vectors on every scene, attempt and held-off run",
          "[scenes]") {
    for (const std::string& name : drawn::sceneNames())
        for (const RunSettings& settings : allSettings()) {
            CAPTURE(name, settings.attempts, settings.held_off);
            const runs::Run ours = runs::run(drawn::scene(name), settings);
            const RawFile stock = runStock(ours.netlist.job.circuit);
            REQUIRE(stock.of("time") == ours.solved.time_s);
            for (std::size_t i = 0; i < ours.netlist.job.vectors.size(); ++i)
                CHECK(stock.of(ours.netlist.job.vectors[i]) == ours.solved.vectors[i]);
        }
}

TEST_CASE("deck writes exactly the text that is run", "[scenes][cli]") {
    const std::string scene = std::string(EBBLINE_SOURCE_DIR) + "/scenes/quay-02.toml";
    const Installation drawn = drawn::scene("quay-02.toml");
    const Models& models = file::embeddedModels();
    const Network whole = network::build(drawn, models.catalogues);
    const auto text = [&](const Network& network, const RunSettings& settings) {
        return netlist::build(network, models, settings).job.circuit;
    };
    const Network reduced = network::reduce(whole);
    CHECK(runs::program("deck " + scene).text == text(reduced, {}));
    CHECK(runs::program("deck --held-off " + scene).text ==
          text(reduced, {.held_off = true, .attempts = 1}));
    CHECK(runs::program("deck --attempt 2 " + scene).text == text(reduced, {.attempts = 2}));
    CHECK(runs::program("deck --full " + scene).text == text(whole, {}));
}

TEST_CASE("circuits hold used models word for word and no command", "[scenes]") {
    const Models& models = file::embeddedModels();
    const Network network = network::build(drawn::scene("quay-02.toml"), models.catalogues);
    const std::string circuit = netlist::build(network, models, {}).job.circuit;
    for (const char* used : {"battery", "conductor", "joint", "contact", "fuse", "controller"})
        CHECK(circuit.find(models.circuits.at(used)) != std::string::npos);
    CHECK(circuit.find(".include") == std::string::npos);
    CHECK(circuit.find(".control") == std::string::npos);
    CHECK(circuit.find("Marguerite") == std::string::npos); // no text of the scene
}

TEST_CASE("final accuracy has converged and draft lies within 20 mV of it", "[scenes]") {
    for (const std::string& name : drivenScenes()) {
        CAPTURE(name);
        const auto held_off_start = [&](Accuracy accuracy) {
            return runs::run(drawn::scene(name),
                             {.accuracy = accuracy, .held_off = true, .attempts = 1})
                .start;
        };
        const auto acting = [&](Accuracy accuracy) {
            return runs::run(drawn::scene(name), {.accuracy = accuracy}).start;
        };
        const double final_v = held_off_start(Accuracy::Final).sensed_lowest_v.value();
        CHECK_THAT(held_off_start(Accuracy::Tight).sensed_lowest_v.value(),
                   WithinAbs(final_v, headroom_step_v));
        CHECK_THAT(held_off_start(Accuracy::Draft).sensed_lowest_v.value(),
                   WithinAbs(final_v, 20e-3));
        const auto final_events = acting(Accuracy::Final).events;
        const auto tight_events = acting(Accuracy::Tight).events;
        REQUIRE(final_events.size() == tight_events.size());
        for (std::size_t i = 0; i < final_events.size(); ++i) {
            CHECK(final_events[i].what == tight_events[i].what);
            CHECK_THAT(final_events[i].at_s, WithinAbs(tight_events[i].at_s, 1e-3));
        }
    }
}

TEST_CASE("the ledger closes at every stored instant, merged or not", "[scenes][ledger]") {
    for (const std::string& name : drawn::sceneNames())
        for (const bool reduced : {true, false}) {
            CAPTURE(name, reduced);
            const runs::Run run = runs::run(drawn::scene(name), {}, reduced);
            if (!run.netlist.network.loop)
                continue;
            double worst = 0;
            for (std::size_t i = 0; i < run.solved.time_s.size(); ++i) {
                const Ledger ledger = start::readLedger(run.solved, run.netlist, i);
                worst = std::max(worst, std::abs(ledger.error()) / ledgerBound(ledger));
            }
            CHECK(worst < 1);
        }
}

TEST_CASE("a ledger with a row dropped or doubled does not close", "[scenes][ledger]") {
    // Every joint has 12 mohm so that each row is well above the bound.
    const Ledger good =
        *runs::run(drawn::loop({.length_m = 4, .joint_mohm = 12}), {.attempts = 1}).start.ledger;
    REQUIRE(std::abs(good.error()) < ledgerBound(good));
    REQUIRE(good.rows.size() == 15);
    for (std::size_t i = 0; i < good.rows.size(); ++i) {
        CAPTURE(good.rows[i].element);
        Ledger dropped = good;
        dropped.rows.erase(dropped.rows.begin() + static_cast<std::ptrdiff_t>(i));
        CHECK(std::abs(dropped.error()) > ledgerBound(dropped));
        Ledger doubled = good;
        doubled.rows.push_back(good.rows[i]);
        CHECK(std::abs(doubled.error()) > ledgerBound(doubled));
    }
}

TEST_CASE("the ledger's law is the element's own: another resistance breaks it",
          "[scenes][ledger]") {
    // The circuit runs as drawn; the ledger is read with one element's resistance dropped, doubled
    // or turned round. Every joint has 12 mohm so that each can be seen.
    Installation drawn = drawn::loop({.length_m = 4, .joint_mohm = 12});
    runs::Run run = runs::run(drawn, {.attempts = 1});
    const auto lowest = std::ranges::find_if(run.solved.time_s, [&](double time_s) {
        return time_s - run.netlist.lead_s >= run.start.lowest_at_s.value();
    });
    const auto instant = static_cast<std::size_t>(lowest - run.solved.time_s.begin());
    const auto error = [&] {
        return std::abs(start::readLedger(run.solved, run.netlist, instant).error());
    };
    const double bound = ledgerBound(*run.start.ledger);
    REQUIRE(error() < bound);
    auto& elements = run.netlist.network.elements;
    std::vector<int> linear;
    for (const auto& way : {run.netlist.network.loop->out, run.netlist.network.loop->back})
        for (const Step& step : way)
            if (elements[static_cast<std::size_t>(step.element)].linear)
                linear.push_back(step.element);
    REQUIRE(linear.size() == 13);
    for (const int index : linear) {
        Element& element = elements[static_cast<std::size_t>(index)];
        CAPTURE(element.name);
        const double ohm = element.ohm;
        element.ohm = 0;
        CHECK(error() > bound);
        element.ohm = 2 * ohm;
        CHECK(error() > bound);
        element.ohm = ohm;
        // Ends exchanged.
        Probe& probe = run.netlist.probes[static_cast<std::size_t>(index)];
        probe.share = -probe.share;
        CHECK(error() > bound);
        probe.share = -probe.share;
    }
    CHECK(error() < bound);
}

TEST_CASE("better supply never starts worse", "[scenes]") {
    // With the cut-out held off: a thicker, a shorter cable, half a joint's resistance. True with
    // one source: beside a charging source a thinner cable to the battery may help the fridge.
    for (const std::string& name : drivenScenes()) {
        const Installation drawn = drawn::scene(name);
        const auto is_charger = [](const Part& part) {
            return std::holds_alternative<Charger>(part.body);
        };
        if (std::ranges::any_of(drawn.parts, is_charger))
            continue;
        CAPTURE(name);
        const auto lowest = [](const Installation& installation) {
            return runs::run(installation, {.held_off = true, .attempts = 1})
                .start.sensed_lowest_v.value();
        };
        const double before_v = lowest(drawn);
        Installation thicker = drawn;
        for (Core& core : weakestRun(thicker).cores)
            core.size = {SizeScale::Mm2, 16};
        Installation shorter = drawn;
        Run& cable = weakestRun(shorter);
        cable.length_m = cable.length() / 2;
        Installation worse_joint = drawn;
        Installation better_joint = drawn;
        weakestRun(worse_joint).cores[0].joint_to.resistance_mohm = 40;
        weakestRun(better_joint).cores[0].joint_to.resistance_mohm = 20;
        CHECK(lowest(thicker) > before_v);
        CHECK(lowest(shorter) > before_v);
        CHECK(lowest(better_joint) > lowest(worse_joint));
        const Outcome outcome = runs::run(drawn, {.attempts = 1}).start.outcome;
        for (const Installation& better : {thicker, shorter})
            if (outcome == Outcome::Starts)
                CHECK(runs::run(better, {.attempts = 1}).start.outcome == Outcome::Starts);
    }
}
