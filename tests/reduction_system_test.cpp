// SPDX-License-Identifier: MIT
// Merged circuits run as the whole ones do: every scene, and installations drawn by chance.
#include "drawn.h"
#include "random_wirings.h"
#include "runs.h"
#include "start/trace.h"

#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double lowest_v = 2e-3;
constexpr double event_s = 1e-3;
constexpr double grid_v = 3e-3;
constexpr double grid_share = 0.99;
constexpr double grid_step_s = 1e-3;
constexpr double grid_s = 5; // beyond it the steady part would only dilute what differs

/// Share of the grid, from the first instant both have, on which the two lie together.
double shareTogether(const Waveform& one, const Waveform& other) {
    const double begin_s = std::max(one.time_s.front(), other.time_s.front());
    const double end_s = std::min({one.time_s.back(), other.time_s.back(), grid_s});
    int points = 0;
    int together = 0;
    while (begin_s + points * grid_step_s < end_s) {
        const double at_s = begin_s + points * grid_step_s;
        ++points;
        together += std::abs(start::valueAt(one.time_s, one.volts, at_s) -
                             start::valueAt(other.time_s, other.volts, at_s)) <= grid_v;
    }
    REQUIRE(points > 1000);
    return static_cast<double>(together) / points;
}

std::map<Happening, double> firstTimes(const Start& start) {
    std::map<Happening, double> times;
    for (const StartEvent& event : start.events)
        times.try_emplace(event.what, event.at_s);
    return times;
}

void compareEvents(const Start& merged, const Start& whole) {
    CHECK(merged.outcome == whole.outcome);
    const auto times = firstTimes(merged);
    const auto expected = firstTimes(whole);
    REQUIRE(times.size() == expected.size());
    for (const auto& [what, at_s] : times) {
        CAPTURE(nameOf(what));
        CHECK_THAT(expected.at(what), WithinAbs(at_s, event_s));
    }
}

/// What the cut-out decides by, at its lowest in an undisturbed start.
void compareLowest(const Start& merged, const Start& whole) {
    REQUIRE(merged.sensed_lowest_v.has_value() == whole.sensed_lowest_v.has_value());
    if (merged.sensed_lowest_v)
        CHECK_THAT(*merged.sensed_lowest_v, WithinAbs(*whole.sensed_lowest_v, lowest_v));
    CHECK(shareTogether(merged.waveform, whole.waveform) >= grid_share);
}

/// An acting run of so many attempts and a held-off one, merged and whole.
void addRuns(std::vector<runs::Wanted>& wanted, const Installation& drawn, int attempts) {
    for (const bool held_off : {false, true})
        for (const bool reduced : {true, false})
            wanted.push_back(
                {.installation = drawn,
                 .settings = {.held_off = held_off, .attempts = held_off ? 1 : attempts},
                 .change = {},
                 .reduced = reduced});
}

/// How many branches merging saved in all.
std::size_t compareAll(const std::vector<runs::Wanted>& wanted) {
    std::size_t saved = 0;
    std::size_t merged_branches = 0;
    Start merged;
    runs::runMany(wanted, [&](std::size_t i, const runs::Run& run) {
        CAPTURE(wanted[i].installation.title, wanted[i].settings.held_off);
        if (wanted[i].reduced) {
            merged = run.start;
            merged_branches = run.netlist.network.branches.size();
            return;
        }
        saved += run.netlist.network.branches.size() - merged_branches;
        if (wanted[i].settings.held_off)
            compareLowest(merged, run.start);
        else
            compareEvents(merged, run.start);
    });
    return saved;
}

std::uint64_t howMany() {
    if (std::getenv("EBBLINE_LONG") != nullptr)
        return 500;
    return runs::isSanitised() ? 4 : 16;
}

} // namespace

TEST_CASE("merged and whole circuits of every scene agree", "[reduction]") {
    std::vector<runs::Wanted> wanted;
    for (const std::string& name : drawn::sceneNames())
        addRuns(wanted, drawn::scene(name), 3);
    CHECK(compareAll(wanted) > 5 * wanted.size() / 2);
}

TEST_CASE("merged and whole circuits of random wirings agree", "[reduction][slow]") {
    std::vector<runs::Wanted> wanted;
    const std::uint64_t many = howMany();
    for (std::uint64_t seed = 1; seed <= many; ++seed) {
        const Installation drawn = random_wirings::draw(seed);
        addRuns(wanted, installation::apply(drawn, installation::faultChanges(drawn)), 1);
    }
    CHECK(compareAll(wanted) > 5 * many);
}
