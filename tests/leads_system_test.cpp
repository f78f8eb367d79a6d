// SPDX-License-Identifier: MIT
// What a meter shows between any two terminals, against Kirchhoff's voltage law and the circuit
// that is not merged.
#include "drawn.h"
#include "runs.h"

#include "ebbline/file.h"
#include "ebbline/leads.h"
#include "ebbline/start.h"

#include <catch2/catch.hpp>

#include <set>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

Installation sceneOf(const std::string& name) {
    return file::read(EBBLINE_SOURCE_DIR "/scenes/" + name, file::embeddedModels().catalogues)
        .installation;
}

/// Every terminal that a conductor ends at.
std::vector<Terminal> terminalsOf(const Installation& installation) {
    std::set<Terminal> terminals;
    for (const Run& run : installation.runs)
        for (const Core& core : run.cores)
            terminals.insert({core.from, core.to});
    return {terminals.begin(), terminals.end()};
}

double reading(const Examination& examination, const Frame& frame, const Leads& leads) {
    const auto volts = desk::readingOf(examination.network, frame, leads);
    REQUIRE(volts.has_value());
    return *volts;
}

} // namespace

TEST_CASE("leads on the fridge and on the battery read what the start says", "[leads]") {
    const Examination found = runs::examineBriefly(sceneOf("quay-02.toml"));
    const SupplyLoop& loop = *found.network.loop;
    const std::string battery = found.network.elements[static_cast<std::size_t>(loop.battery)].part;
    const Leads at_fridge = desk::leadsAtFridge(found.network.installation);
    const Leads at_battery{.plus = {battery, "plus"}, .minus = {battery, "minus"}};
    for (const Frame& frame : found.start.frames) {
        CHECK_THAT(reading(found, frame, at_fridge), WithinAbs(frame.controller_v, 1e-9));
        const double inside_v = frame.volts[static_cast<std::size_t>(loop.battery)];
        CHECK_THAT(reading(found, frame, at_battery), WithinAbs(frame.source_v - inside_v, 1e-4));
    }
}

TEST_CASE("along the supply loop the readings add up to the losses", "[leads]") {
    const Examination found = runs::examineBriefly(sceneOf("quay-02.toml"));
    const SupplyLoop& loop = *found.network.loop;
    REQUIRE(found.start.lowest_at_s);
    const Frame frame = start::frameAt(found.start, *found.start.lowest_at_s);
    double lost_v = 0;
    for (const auto* side : {&loop.out, &loop.back})
        for (const Step& step : *side)
            lost_v += step.sign * frame.volts[static_cast<std::size_t>(step.element)];
    const std::string battery = found.network.elements[static_cast<std::size_t>(loop.battery)].part;
    const Leads plus_side{.plus = {battery, "plus"}, .minus = {"fridge", "plus"}};
    const Leads minus_side{.plus = {"fridge", "minus"}, .minus = {battery, "minus"}};
    CHECK_THAT(reading(found, frame, plus_side) + reading(found, frame, minus_side),
               WithinAbs(lost_v, 1e-4));
    CHECK(reading(found, frame, plus_side) > 0.5); // a thin twin: it is no small matter
    const Leads turned{.plus = plus_side.minus, .minus = plus_side.plus};
    CHECK(reading(found, frame, turned) == -reading(found, frame, plus_side));
}

TEST_CASE("a meter reads the same whether the circuit is merged or not", "[leads]") {
    for (const std::string& name : drawn::sceneNames()) {
        if (runs::isSanitised() && name != "quay-06.toml" && name != "van-02.toml")
            continue;
        INFO(name);
        const Installation scene = sceneOf(name);
        const runs::Run whole = runs::run(scene, {.attempts = 1}, false);
        const runs::Run merged = runs::run(scene, {.attempts = 1}, true);
        CHECK(merged.netlist.network.branches.size() < whole.netlist.network.branches.size());
        const std::vector<Terminal> terminals = terminalsOf(scene);
        int read = 0;
        for (const Terminal& terminal : terminals) {
            const Leads leads{.plus = terminal, .minus = terminals.front()};
            const auto one =
                desk::readingOf(whole.netlist.network, whole.start.frames.front(), leads);
            const auto other =
                desk::readingOf(merged.netlist.network, merged.start.frames.front(), leads);
            INFO(terminal.text());
            CHECK(one.has_value() == other.has_value());
            if (!one)
                continue;
            ++read;
            CHECK_THAT(*other, WithinAbs(*one, 1e-3)); // what a final run promises
        }
        CHECK(read > 3);
    }
}

TEST_CASE("every stud of a bus bar has a reading, the same for all", "[leads]") {
    const Examination found = runs::examineBriefly(sceneOf("quay-06.toml"));
    int bars = 0;
    for (const Part& part : found.network.installation.parts)
        if (const auto* bar = std::get_if<BusBar>(&part.body)) {
            ++bars;
            Leads leads = desk::leadsAtFridge(found.network.installation);
            leads.plus = {part.id, "1"};
            const double first_v = reading(found, found.start.frames.back(), leads);
            leads.plus.terminal = std::to_string(bar->studs);
            CHECK(reading(found, found.start.frames.back(), leads) == first_v);
        }
    CHECK(bars > 0);
}

TEST_CASE("a lead on nothing reads nothing", "[leads]") {
    const Examination found = runs::examineBriefly(sceneOf("quay-02.toml"));
    Leads leads = desk::leadsAtFridge(found.network.installation);
    leads.plus = {"nobody", "plus"};
    CHECK_FALSE(desk::traceOf(found, leads).has_value());
    CHECK_FALSE(desk::readingOf(found.network, found.start.frames.front(), leads).has_value());
}

TEST_CASE("lowest and highest are those of the try that is shown", "[leads]") {
    const Examination found = runs::examineBriefly(sceneOf("quay-02.toml"));
    const auto trace = desk::traceOf(found, desk::leadsAtFridge(found.network.installation));
    REQUIRE(trace.has_value());
    REQUIRE(found.start.attempts.size() > 1);
    REQUIRE(found.start.lowest_v);
    const LeadExtremes extremes = desk::extremesOf(found.start, *trace, 0);
    CHECK_THAT(extremes.lowest_v, WithinAbs(*found.start.lowest_v, 1e-3));
    const Attempt& last = found.start.attempts.back();
    const LeadExtremes later = desk::extremesOf(found.start, *trace, last.begin_s + 1);
    CHECK(later.lowest_v != extremes.lowest_v); // of another try
    CHECK(extremes.highest_v < 13);
    CHECK(extremes.highest_v > 12);
}
