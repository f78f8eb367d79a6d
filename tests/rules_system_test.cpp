// SPDX-License-Identifier: MIT
// Rules, losses and the first line on simulated starts.
#include "drawn.h"
#include "runs.h"

#include "ebbline/rules.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

/// A scene simulated, and all that the rules say of it.
struct Judged {
    explicit Judged(const Installation& drawn, const RuleSettings& settings = {})
        : examination(runs::examine(drawn)) {
        const Catalogues& catalogues = file::embeddedModels().catalogues;
        const Network network = network::build(drawn, catalogues);
        const Evidence evidence{examination.start,
                                examination.held_off ? &*examination.held_off : nullptr,
                                examination.verdict};
        findings = verdict::judgeRules(network, catalogues, evidence, settings);
        losses = verdict::findLosses(network, catalogues, evidence, settings);
        line = verdict::headline(network, catalogues, evidence, settings);
    }

    [[nodiscard]] RuleState state(const std::string& rule) const {
        return std::ranges::find(findings, rule, &RuleFinding::rule)->state;
    }

    Examination examination;
    std::vector<RuleFinding> findings;
    std::vector<Loss> losses;
    Headline line;
};

} // namespace

TEST_CASE("a circuit that keeps 10 % need not start", "[rules]") {
    // 9.1 m one way of 1.5 mm2: the running drop keeps 10 %, the start trips.
    Installation drawn = drawn::scene("quay-02.toml");
    drawn.rules = "small-craft-iso";
    const Judged judged(drawn, {.drop = DropChoice{10, "no maker asks for less"}});
    REQUIRE(judged.examination.start.outcome == Outcome::Trips);
    CHECK(judged.state("drop-10-percent") == RuleState::Kept);
    CHECK(judged.state("headroom") == RuleState::Broken);
    CHECK_THAT(judged.line.cause, Contains("Does not start"));
}

TEST_CASE("putting right what the first line names gains what it promises", "[rules]") {
    // A corroded joint right at the battery, everything else sound.
    Installation drawn = drawn::feed({.fuse_m = 0.1, .length_m = 3});
    Joint& joint = drawn::runOf(drawn, "lead").cores[0].joint_from;
    joint = {.kind = "post-clamp", .resistance_mohm = 200};
    const Judged bad(drawn);
    REQUIRE(bad.examination.start.outcome == Outcome::Trips);
    CHECK(bad.line.element == "lead.from");
    const auto loss = std::ranges::find(bad.losses, "lead.from", &Loss::element);
    joint.resistance_mohm = 0.2; // a new clamp by joints.toml
    const Judged good(drawn);
    CHECK(good.examination.start.outcome == Outcome::Starts);
    // Held off the current is higher than at the trip, so the gain is no smaller than promised.
    REQUIRE(bad.examination.held_off);
    const double gain_v = *good.examination.start.lowest_v - *bad.examination.held_off->lowest_v;
    CHECK(gain_v > 0.9 * loss->avoidable_v);
    CHECK(gain_v < 1.5 * loss->avoidable_v);
}

TEST_CASE("a fuse that the rules call too small opens, one they trust does not", "[rules]") {
    const auto run = [](double rating_a) {
        return Judged(drawn::feed({.fuse_m = 0.1, .length_m = 2, .rating_a = rating_a}));
    };
    const Judged small = run(3);
    CHECK(small.examination.start.outcome == Outcome::FuseOpens);
    CHECK(small.state("fuse-carries-start") == RuleState::Broken);
    CHECK(small.line.element == "main-fuse");
    const Judged large = run(15);
    CHECK(large.examination.start.outcome == Outcome::Starts);
    CHECK(large.state("fuse-carries-start") == RuleState::Kept);
}
