// SPDX-License-Identifier: MIT
// Conductors against published tables; the drawn loop against sums on paper.
#include "drawn.h"

#include "ebbline/network.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace ebbline;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

double mohmPerM(double mm2, const std::string& conductor) {
    return network::conductorMohmPerM({SizeScale::Mm2, mm2}, conductor, catalogues()).value();
}

double totalOhm(const Network& network) {
    double sum = 0;
    for (const Branch& branch : network.branches)
        sum += branch.ohm;
    return sum;
}

/// Two wires laid together, henries per metre of the pair: models/README.md.
double pairHenry(double area_mm2) {
    const double radius_mm = std::sqrt(area_mm2 / std::numbers::pi);
    return 4e-7 * (std::log((2.8 * radius_mm + 0.85) / radius_mm) + 0.25);
}

} // namespace

TEST_CASE("conductors have the largest resistance IEC 60228 allows", "[network]") {
    // Source: IEC 60228:2004 tables 2 and 3, copper, 20 C, mohm/m.
    CHECK_THAT(network::conductorOhm(mohmPerM(2.5, "class-5"), 10, 20), WithinRel(79.8e-3, 1e-9));
    CHECK_THAT(network::conductorOhm(mohmPerM(6, "class-5-tinned"), 10, 20),
               WithinRel(33.9e-3, 1e-9));
    CHECK_THAT(mohmPerM(4, "class-2"), WithinRel(4.61, 1e-12));
    // Not a misprint in the standard: class 5 of 50 mm2 lies below class 2.
    CHECK(mohmPerM(50, "class-5") == 0.386);
    CHECK(mohmPerM(50, "class-2") == 0.387);
}

TEST_CASE("copper's resistance rises with temperature as in IEC 60287", "[network]") {
    CHECK_THAT(network::conductorOhm(7.98, 1, 70) * 1e3, WithinRel(9.548, 1e-3));
    // k_t = R20 / R(t); IEC 60228 annex B prints rounded values of a slightly different formula.
    const auto correction = [](double celsius) {
        return 1e-3 / network::conductorOhm(1, 1, celsius);
    };
    CHECK_THAT(correction(30), WithinAbs(0.9622, 2e-4));
    CHECK_THAT(correction(90), WithinAbs(0.7843, 2e-4));
}

TEST_CASE("AWG sizes follow the formula of ASTM B258", "[network]") {
    CHECK_THAT(network::awgDiameter(12), WithinAbs(2.0525, 5e-4));
    CHECK_THAT(network::awgDiameter(36), WithinRel(0.127, 1e-12));
    CHECK_THAT(network::awgDiameter(-3), WithinRel(11.684, 1e-12)); // 4/0 is 0.46 inch exactly
    CHECK_THAT(network::awgArea(12), WithinRel(3.3088, 1e-4));
    const auto awg_12 =
        network::conductorMohmPerM({SizeScale::Awg, 12}, "class-5", catalogues()).value();
    CHECK_THAT(awg_12, WithinRel(5.2107, 1e-4)); // IEC 60028: 0.017241 ohm mm2/m
}

TEST_CASE("SAE sizes hold less copper than AWG sizes", "[network]") {
    // Source: minimum circular mils 5,833 (SAE 12) against 6,530 (AWG 12); 1 cmil = pi/4 mil2.
    const double sae_12 = network::saeArea(12).value();
    const double cmil_mm2 = sae_12 / 5833;
    CHECK_THAT(6530 * cmil_mm2, WithinRel(3.3088, 2e-4));
    CHECK_THAT((sae_12 / (6530 * cmil_mm2) - 1) * 100, WithinAbs(-10.67, 0.05));
    CHECK_FALSE(network::saeArea(7).has_value());
}

TEST_CASE("a drawn loop has the resistance one adds up on paper", "[network]") {
    // 2.5 mm2 tinned, 10 m out and back; isolator 1, fuse and holder 6, eight joints of 0.3 mohm;
    // with a battery of 12 mohm that is the reference loop of 103.5 mohm. Derived from IEC 60228.
    const Network network = network::build(drawn::loop({.length_m = 5}), catalogues());
    CHECK_THAT(network::loopOhm(network) + 12e-3, WithinAbs(103.5e-3, 1e-9));
    CHECK_THAT(12.6 - 8 * (network::loopOhm(network) + 12e-3), WithinRel(11.772, 1e-4));
}

TEST_CASE("the supply loop runs from plus to plus and from minus to minus", "[network]") {
    const Network network = network::build(drawn::loop({}), catalogues());
    REQUIRE(network.loop);
    std::vector<std::string> out;
    for (const Step& step : network.loop->out)
        out.push_back(network.elements[static_cast<std::size_t>(step.element)].name);
    CHECK(out == std::vector<std::string>{"first.from",
                                          "first",
                                          "first.to",
                                          "main-switch",
                                          "second.from",
                                          "second",
                                          "second.to",
                                          "main-fuse",
                                          "third.from",
                                          "third",
                                          "third.to"});
    std::vector<int> signs;
    for (const Step& step : network.loop->back)
        signs.push_back(step.sign);
    CHECK(signs == std::vector<int>{-1, -1, -1}); // drawn from the battery to the fridge
    CHECK_FALSE(network.loop->reversed);
}

TEST_CASE("a fridge wired the wrong way round has a reversed loop", "[network]") {
    Installation drawn = drawn::loop({});
    std::swap(drawn::runOf(drawn, "third").cores[0].to, drawn::runOf(drawn, "return").cores[0].to);
    const Network network = network::build(drawn, catalogues());
    REQUIRE(network.loop);
    CHECK(network.loop->reversed);
}

TEST_CASE("a loop that is not closed is no loop", "[network]") {
    Installation drawn = drawn::loop({});
    drawn.runs.pop_back();
    CHECK_FALSE(network::build(drawn, catalogues()).loop.has_value());
}

TEST_CASE("merging chains keeps every element, ohm and henry", "[network]") {
    const Network whole = network::build(drawn::loop({}), catalogues());
    const Network reduced = network::reduce(whole);
    CHECK(whole.branches.size() == 13);
    // Battery to fuse, fuse to fridge, fridge back to battery.
    REQUIRE(reduced.branches.size() == 3);
    CHECK_THAT(totalOhm(reduced), WithinRel(totalOhm(whole), 1e-12));
    std::size_t members = 0;
    double henry = 0;
    for (const Branch& branch : reduced.branches) {
        members += branch.members.size();
        henry += branch.henry;
    }
    CHECK(members == whole.branches.size());
    // Laid together, as in models/README.md; 5 m of twin 2.5 mm2 out and back, 0 of all else.
    CHECK_THAT(henry, WithinRel(pairHenry(2.5) * 5, 1e-12));
}

TEST_CASE("what lies side by side becomes one where the current divides evenly", "[network]") {
    Network network;
    network.nodes = {"house.minus", "house.plus", "lamp.plus"};
    const auto add = [&](ElementKind kind, int from, int to, double ohm, double henry) {
        const auto index = static_cast<int>(network.elements.size());
        const bool linear = kind == ElementKind::Conductor;
        network.elements.push_back({.name = "e" + std::to_string(index),
                                    .kind = kind,
                                    .from = from,
                                    .to = to,
                                    .ohm = ohm,
                                    .henry = henry,
                                    .linear = linear,
                                    .part = {}});
        if (linear)
            network.branches.push_back(
                {.from = from, .to = to, .ohm = ohm, .henry = henry, .members = {{index, 1}}});
    };
    add(ElementKind::Battery, 0, 1, 0.01, 0);
    add(ElementKind::Conductor, 1, 2, 0.25, 2e-6);
    add(ElementKind::Conductor, 2, 1, 0.75, 6e-6); // of the same cable, drawn the other way
    add(ElementKind::Conductor, 1, 2, 0.25, 4e-6); // of another
    add(ElementKind::Load, 2, 0, 2, 0);
    const std::vector<Branch> branches = network::reduce(network).branches;
    REQUIRE(branches.size() == 2);
    CHECK_THAT(branches[0].ohm, WithinRel(0.1875, 1e-12));
    CHECK_THAT(branches[0].henry, WithinRel(1.5e-6, 1e-12));
    CHECK(branches[0].members == std::vector<Member>{{1, 0.75}, {2, -0.25}});
    CHECK(branches[1].members == std::vector<Member>{{3, 1}});
    network.loop = SupplyLoop{.out = {{1, 1}}, .back = {}};
    CHECK(network::reduce(network).branches.size() == 3);
}

TEST_CASE("lugs of a bolted stack lie on one another, one face each", "[network]") {
    Installation drawn = drawn::loop({});
    drawn.parts.push_back(
        {.id = "neg",
         .body = Stud{.stack = {{"return", "from"}, {"link", "to"}}, .face_mohm = 0.1}});
    drawn::runOf(drawn, "return").cores[0].from = {"neg", "post"};
    Run link = drawn::runOf(drawn, "first");
    link.id = "link";
    link.cores[0].from = {"house", "minus"};
    link.cores[0].to = {"neg", "post"};
    drawn.runs.push_back(link);
    const Network network = network::build(drawn, catalogues());
    REQUIRE(network.loop);
    std::vector<std::string> back;
    for (const Step& step : network.loop->back)
        back.push_back(network.elements[static_cast<std::size_t>(step.element)].name);
    CHECK(back ==
          std::vector<std::string>{
              "return.to", "return", "return.from", "neg.face-2", "link.to", "link", "link.from"});
}

TEST_CASE("inductance follows how a cable lies", "[network]") {
    // Rosa, Grover (from memory): figures derived from their formulas for solid wires of 6 mm2.
    CHECK_THAT(1e6 * network::pairInductance(6, 50), WithinRel(1.535, 2e-3));
    CHECK_THAT(1e6 * network::pairInductance(6, 200), WithinRel(2.090, 2e-3));
    CHECK_THAT(1e6 * network::inductanceOverMetal(6, 30), WithinRel(0.804, 2e-3));
    CHECK_THAT(1e6 * network::inductanceOverMetal(35, 100), WithinRel(0.869, 2e-3));
    // Laid together within 3 % of the published figure for a touching pair of usual cores.
    CHECK_THAT(1e6 * 2 * network::inductancePerM({}, 6), WithinRel(0.590, 0.03));
    CHECK_THAT(2 * network::inductancePerM({.apart_mm = 50}, 6),
               WithinRel(network::pairInductance(6, 50), 1e-12));
    CHECK_THAT(network::inductancePerM({.over_metal_mm = 30}, 6),
               WithinRel(network::inductanceOverMetal(6, 30), 1e-12));
    CHECK_THAT(network::inductancePerM({.inductance_uh = 0.7}, 6), WithinRel(0.35e-6, 1e-12));
}
