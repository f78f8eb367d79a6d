// SPDX-License-Identifier: MIT
// The page that travels, as far as it needs no simulation: frames, moments, words.
#include "report/reel.h"
#include "report/words.h"

#include "ebbline/instants.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace ebbline;
using namespace ebbline::report;

namespace {

/// The fridge's voltage falls from one time to another, and everything else stands still.
Start startThatFalls(double from_s, double to_s) {
    Start start;
    start.horizon_s = 3;
    for (int i = -100; i <= 300; ++i) {
        const double at_s = 0.01 * i;
        const double share = std::clamp((at_s - from_s) / (to_s - from_s), 0.0, 1.0);
        start.frames.push_back({at_s, 12.6, 12.6 - 2 * share, {}, {}});
    }
    start.lowest_at_s = to_s;
    start.lowest_v = 10.6;
    start.events = {{from_s, Happening::SpinsUp}, {to_s, Happening::GaveUp}};
    return start;
}

std::size_t countWithin(const std::vector<double>& times, double from_s, double to_s) {
    return static_cast<std::size_t>(
        std::ranges::count_if(times, [&](double at_s) { return at_s >= from_s && at_s < to_s; }));
}

} // namespace

TEST_CASE("frames that were put on a reel come off it as they were", "[report]") {
    std::mt19937_64 random(11);
    const auto below = [&](std::size_t most) { return static_cast<std::size_t>(random() % most); };
    for (int round = 0; round < 200; ++round) {
        std::vector<std::string> frames;
        for (std::size_t i = 0; i < 1 + below(8); ++i) {
            std::string& frame = frames.emplace_back();
            for (std::size_t k = 0; k < below(12); ++k)
                frame += std::string(below(3), 'x') + std::to_string(below(4)) +
                         (below(5) > 0 ? "\n" : "");
        }
        const Reel reel = encode(frames);
        CHECK(decode(reel) == frames);
        for (const std::string& line : reel.lines)
            CHECK(std::ranges::count(reel.lines, line) == 1);
    }
    CHECK(decode(encode(std::vector<std::string>{})).empty());
}

TEST_CASE("what does not change costs next to nothing", "[report]") {
    std::string frame;
    for (int i = 0; i < 300; ++i)
        frame += "<text>" + std::to_string(i) + "</text>\n";
    const Reel reel = encode(std::vector<std::string>{frame, frame, frame + "more"});
    CHECK(reel.lines.size() == 302);
    CHECK(reel.edits[1] == std::vector<std::size_t>{301, 0, 0});
    CHECK(reel.edits[2] == std::vector<std::size_t>{300, 1, 1, 301});
}

TEST_CASE("moments lie close together where much happens", "[report]") {
    const Start start = startThatFalls(1.0, 1.4);
    const Instants instants = chooseInstants(start, {-0.5, 2.5}, 100);
    CHECK(instants.at_s.size() <= 100);
    CHECK(instants.at_s.size() >= 95);
    CHECK(std::ranges::is_sorted(instants.at_s, std::less_equal()));
    CHECK(instants.at_s.front() == -0.5);
    CHECK(instants.at_s.back() == 2.5);
    CHECK(instants.at_s.at(instants.worst) == 1.4);
    CHECK(countWithin(instants.at_s, 1.0, 1.4) > 3 * countWithin(instants.at_s, 0.0, 0.4));
    // Closest of all just before the worst.
    CHECK(countWithin(instants.at_s, 1.3, 1.4) > countWithin(instants.at_s, 1.0, 1.1));
}

TEST_CASE("every event and the worst moment are moments to stop at", "[report]") {
    Start start = startThatFalls(1.0, 1.4);
    start.events.push_back({9, Happening::TriesAgain});
    const Instants instants = chooseInstants(start, {-0.5, 2.5}, 60);
    std::vector<double> stations;
    for (const std::size_t station : instants.stations)
        stations.push_back(instants.at_s.at(station));
    CHECK(stations == std::vector{1.0, 1.4});
    CHECK(std::ranges::find(instants.stations, instants.worst) != instants.stations.end());
}

TEST_CASE("a kept drop rule never reads like a pass", "[report]") {
    RuleFinding finding{.rule = "drop-10-percent", .state = RuleState::Kept};
    CHECK(stateWords(finding) == "kept (drop only)");
    finding.rule = "fuse-present";
    CHECK(stateWords(finding) == "kept");
}

TEST_CASE("broken rules come first, and within a state the rules keep their order", "[report]") {
    const std::vector<RuleFinding> findings{{.rule = "a", .state = RuleState::Kept},
                                            {.rule = "b", .state = RuleState::Broken},
                                            {.rule = "c", .state = RuleState::NotJudged},
                                            {.rule = "d", .state = RuleState::Broken}};
    std::string order;
    for (const RuleFinding* finding : sortByWeight(findings))
        order += finding->rule;
    CHECK(order == "bdca");
}

TEST_CASE("the cautions name every danger", "[report]") {
    std::string all;
    for (const std::string& caution : cautionWords())
        all += caution + "\n";
    using Catch::Matchers::Contains;
    CHECK_THAT(all, Contains("battery") && Contains("short circuit") && Contains("unplug"));
    CHECK_THAT(all, Contains("burn") && Contains("Refrigerant"));
    CHECK_THAT(all, Contains("Local codes and licensed practice"));
}
