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
#include <memory>
#include <optional>
#include <vector>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double lowest_v = 2e-3;
constexpr double event_s = 1e-3;
constexpr double grid_v = 3e-3;
constexpr double grid_share = 0.99;
constexpr double grid_step_s = 1e-3;
constexpr double grid_s = 5; // beyond it the steady part would only dilute what differs

/// Of a unit that has lost its supply: its terminals are bled by 100 kohm, and currents are solved
/// to a microampere, so what is left between them is known to a tenth of a volt and means nothing.
constexpr double dead_v = 0.1;

bool isSame(double one_v, double other_v, double bound_v) {
    return std::abs(one_v - other_v) <= bound_v ||
           (std::abs(one_v) < dead_v && std::abs(other_v) < dead_v);
}

/// Share of the grid, from the first instant both have, on which the two lie together.
double shareTogether(const Waveform& one, const Waveform& other) {
    const double begin_s = std::max(one.time_s.front(), other.time_s.front());
    const double end_s = std::min({one.time_s.back(), other.time_s.back(), grid_s});
    int points = 0;
    int together = 0;
    while (begin_s + points * grid_step_s < end_s) {
        const double at_s = begin_s + points * grid_step_s;
        ++points;
        together += isSame(start::valueAt(one.time_s, one.volts, at_s),
                           start::valueAt(other.time_s, other.volts, at_s),
                           grid_v);
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
    if (merged.sensed_lowest_v &&
        !isSame(*merged.sensed_lowest_v, *whole.sensed_lowest_v, lowest_v))
        CHECK_THAT(*merged.sensed_lowest_v, WithinAbs(*whole.sensed_lowest_v, lowest_v));
}

/// Merged circuits beside whole ones.
class Comparison {
public:
    /// An acting run of so many attempts and a held-off one.
    void compare(const Installation& drawn, int attempts) {
        const Network whole = network::build(drawn, file::embeddedModels().catalogues);
        const Network merged = network::reduce(whole);
        saved += 2 * (whole.branches.size() - merged.branches.size());
        for (const bool held_off : {false, true}) {
            CAPTURE(drawn.title, held_off);
            compareRuns(merged, whole, {.held_off = held_off, .attempts = held_off ? 1 : attempts});
        }
    }

    std::size_t saved = 0;    ///< branches, in all runs
    std::size_t tight = 0;    ///< runs whose waveforms only lie together followed more closely
    std::size_t compared = 0; ///< runs
    std::size_t unsolved = 0; ///< runs of which ngspice gave up on the whole circuit

private:
    struct Pair {
        Start merged;
        Start whole;
    };

    /// Nothing where the whole circuit was not solved.
    std::optional<Pair> run(const Network& merged, const Network& whole, RunSettings settings) {
        std::vector<Netlist> netlists;
        std::vector<Job> jobs;
        for (const Network* network : {&merged, &whole}) {
            netlists.push_back(netlist::build(*network, file::embeddedModels(), settings));
            jobs.push_back(netlists.back().job);
        }
        std::vector<Solution> solutions = m_pool->run(jobs);
        Pair pair{.merged = start::read(study::requireSolved(std::move(solutions[0])), netlists[0]),
                  .whole = {}};
        if (!std::holds_alternative<Solved>(solutions[1]))
            return std::nullopt;
        pair.whole = start::read(std::get<Solved>(solutions[1]), netlists[1]);
        return pair;
    }

    void compareRuns(const Network& merged, const Network& whole, RunSettings settings) {
        auto pair = run(merged, whole, settings);
        if (!pair) {
            ++unsolved;
            return;
        }
        ++compared;
        if (!settings.held_off)
            return compareEvents(pair->merged, pair->whole);
        compareLowest(pair->merged, pair->whole);
        const auto share = [&] {
            return shareTogether(pair->merged.waveform, pair->whole.waveform);
        };
        // A joint that lets go again and again makes of a microsecond a millisecond: there a
        // circuit does not lie together with itself when it is followed more closely. Merging is
        // exact, so the closer both are followed, the closer they lie.
        if (share() < grid_share) {
            ++tight;
            settings.accuracy = Accuracy::Tight;
            pair = run(merged, whole, settings);
            REQUIRE(pair.has_value());
        }
        CHECK(share() >= grid_share);
    }

    std::unique_ptr<Engine> m_pool = runs::makePool();
};

std::uint64_t howMany() {
    if (std::getenv("EBBLINE_LONG") != nullptr)
        return 500;
    return runs::isSanitised() ? 4 : 16;
}

} // namespace

TEST_CASE("merged and whole circuits of every scene agree", "[reduction]") {
    Comparison comparison;
    for (const std::string& name : drawn::sceneNames())
        comparison.compare(drawn::scene(name), 3);
    CHECK(comparison.unsolved == 0);
    CHECK(comparison.tight == 0);
    CHECK(comparison.saved > 10 * comparison.compared);
}

// Whole circuits are seldom run: of some ngspice gives up on the whole one alone. Nothing can be
// held against those, so they are counted.
TEST_CASE("merged and whole circuits of random wirings agree", "[reduction][slow]") {
    Comparison comparison;
    for (std::uint64_t seed = 1; seed <= howMany(); ++seed) {
        const Installation drawn = random_wirings::draw(seed);
        comparison.compare(installation::apply(drawn, installation::faultChanges(drawn)), 1);
    }
    WARN(comparison.compared << " compared, " << comparison.unsolved << " whole ones not solved, "
                             << comparison.tight << " compared followed more closely");
    CHECK(50 * comparison.unsolved <= comparison.compared);
    CHECK(50 * comparison.tight <= comparison.compared);
    CHECK(comparison.saved > 5 * comparison.compared);
}
