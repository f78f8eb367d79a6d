// SPDX-License-Identifier: MIT
// Formulas and tables of the rules against published entries and worked examples.
#include "drawn.h"

#include "ebbline/rules.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace ebbline;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double m_per_ft = 0.3048;

const RuleTables& tables() {
    return file::embeddedModels().catalogues.rules;
}

double capacity(const std::string& table, const Size& size, const verdict::Laying& laying) {
    return verdict::findCapacity(
               tables().capacities.at(table), &tables().bundlings.at("bundle"), size, laying)
        .value()
        .amps;
}

} // namespace

TEST_CASE("the US drop formula sizes its own worked example", "[rules]") {
    // Source: ABYC E-11, K = 10.75: 10 A over 11 + 10 ft, 3 % of 12 V.
    const double cmil = verdict::areaForDrop(verdict::us_ohm_cmil_per_ft, 10, 21, 0.36);
    CHECK_THAT(cmil, WithinAbs(6270.8, 0.1));
    CHECK(verdict::findGauge(cmil, SizeScale::Awg) == 12.0);
    CHECK(verdict::findGauge(cmil, SizeScale::Sae) == 10.0);
    CHECK_FALSE(verdict::findGauge(250000, SizeScale::Awg).has_value());
    // The same from the other side: that area loses 0.36 V.
    CHECK_THAT(
        verdict::conductorDrop(verdict::us_ohm_mm2_per_m, 10, 21 * m_per_ft, cmil * 5.067075e-4),
        WithinRel(0.36, 1e-5));
}

TEST_CASE("the US table for 3 % at 12 V tells SAE from AWG areas", "[rules]") {
    // Source: ABYC E-11, 3 % 12 V table, 10 A over 20 ft: 5,972 cmil lie above SAE 12 and below AWG
    // 12. The whole table: published_tables_test.cpp.
    const double cmil = verdict::areaForDrop(verdict::us_ohm_cmil_per_ft, 10, 20, 0.36);
    CHECK(verdict::findGauge(cmil, SizeScale::Sae) == 10.0);
    CHECK(verdict::findGauge(cmil, SizeScale::Awg) == 12.0);
}

TEST_CASE("drops as published by others", "[rules]") {
    // Source: FAA AC 43.13-1B table 11-7: 107 ft of No. 6 at 0.00044 ohm/ft, 20 A: 0.942 V.
    CHECK_THAT(20 * network::conductorOhm(0.44, 107, 20), WithinRel(0.9416, 1e-9));
    // Table 11-8, No. 10 at 0.00126 ohm/ft over 19.5 ft: the print says .366, which is wrong.
    CHECK_THAT(20 * network::conductorOhm(1.26, 19.5, 20), WithinRel(0.4914, 1e-9));
    // Source: Lessons in Electric Circuits: 230 V, 25 A, 2,300 ft, 5 V in each wire, copper 10.09.
    CHECK_THAT(verdict::areaForDrop(10.09, 25, 2300, 5), WithinAbs(116035, 1));
    // Same source: an aluminium bar 4 x 3 x 125 cm of 2.65 uohm cm has 27.604 uohm.
    CHECK_THAT(verdict::conductorDrop(0.0265, 1, 1.25, 1200), WithinAbs(27.604e-6, 1e-8));
    // Nothing is lost along no length, or without a current.
    CHECK(verdict::conductorDrop(0.0164, 8, 0, 2.5) == 0);
    CHECK(verdict::conductorDrop(0.0164, 0, 10, 2.5) == 0);
    CHECK(verdict::smallCraftDrop(0, 0, 2.5) == 0);
}

TEST_CASE("a new ring terminal loses less than a stud terminal may", "[rules]") {
    // Source: MIL-DTL-83454A 4.5.3: 7.5 mV at 43 A (1/4-28), 0.174 mohm, the smallest of its
    // limits.
    CHECK(file::embeddedModels().catalogues.joints.at("ring").at("new") < 7.5 / 43);
}

TEST_CASE("conductors warm up as published", "[rules]") {
    // Simplified from IEC 60287: 2.5 mm2, 8 A of 35 A, 30 C, 105 C: 33.9 C.
    CHECK_THAT(verdict::conductorTemperature(30, 105, 8, 35), WithinAbs(33.92, 0.01));
    // Source: FAA AC 43.13-1B, example 2 on page 11-27 (answers from memory): #14, 20 A of 26 A,
    // 50 C, 200 C wire: 182 C, and 15.5 ft at 20 C are worth 9.47 ft there.
    CHECK_THAT(verdict::cautiousTemperature(50, 200, 20, 26), WithinAbs(181.56, 0.05));
    CHECK_THAT(network::conductorOhm(1, 15.5, 20) / network::conductorOhm(1, 1, 182),
               WithinAbs(9.471, 0.01));
}

TEST_CASE("published capacities", "[rules]") {
    // Source: 33 CFR 183.425 table 5: AWG 12 with 105 C insulation 45 A; engine space 0.85.
    const std::string us = "small-craft-us";
    const Size twelve{SizeScale::Awg, 12};
    CHECK(capacity(us, twelve, {.insulation_c = 105}) == 45);
    CHECK_THAT(capacity(us, twelve, {.insulation_c = 105, .ambient_c = 50}),
               WithinAbs(38.25, 1e-12));
    // ABYC E-11 prints the engine-space figures of 105 C wire without their fractions.
    const std::array<std::pair<double, double>, 13> hot{{{18, 17},
                                                         {16, 21},
                                                         {14, 30},
                                                         {12, 38},
                                                         {10, 51},
                                                         {8, 68},
                                                         {6, 102},
                                                         {4, 136},
                                                         {2, 178},
                                                         {1, 208},
                                                         {0, 242},
                                                         {-1, 280},
                                                         {-3, 378}}};
    for (const auto& [gauge, amps] : hot) {
        CAPTURE(gauge);
        const double found =
            capacity(us, {SizeScale::Awg, gauge}, {.insulation_c = 105, .ambient_c = 50});
        CHECK_THAT(found, WithinAbs(amps, 0.51));
    }
    CHECK(capacity(us, {SizeScale::Awg, -3}, {.insulation_c = 200}) == 510);
    CHECK(capacity(us, {SizeScale::Awg, 18}, {.insulation_c = 60}) == 10);
    CHECK_FALSE(tables().capacities.at(us).source.from_memory);
    // ISO 13297 table A.1 is from memory and says so.
    CHECK(tables().capacities.at("small-craft-iso").source.from_memory);
}

TEST_CASE("heat takes from a capacity with the square of the current", "[rules]") {
    // Engine-space factors of 33 CFR 183.425 at 50 C (from memory): 0.58 at 60 C, 0.75 at 75 C,
    // 0.78 at 80 C, 0.82 at 90 C, 0.89 at 125 C; sqrt((rating - 50) / (rating - 30)) is meant.
    const std::array<std::pair<double, double>, 5> factors{
        {{60, 0.58}, {75, 0.75}, {80, 0.78}, {90, 0.82}, {125, 0.89}}};
    const Size ten{SizeScale::Awg, 10};
    for (const auto& [insulation_c, factor] : factors) {
        CAPTURE(insulation_c);
        const double cool = capacity("small-craft-us", ten, {.insulation_c = insulation_c});
        const double hot =
            capacity("small-craft-us", ten, {.insulation_c = insulation_c, .ambient_c = 50});
        CHECK_THAT(hot / cool, WithinAbs(factor, 0.0055));
    }
    CHECK(capacity("small-craft-us", ten, {.insulation_c = 60, .ambient_c = 60}) == 0);
    CHECK(capacity("small-craft-us", ten, {.insulation_c = 60, .ambient_c = -5}) == 40);
}

TEST_CASE("a size or insulation between two entries counts as the poorer", "[rules]") {
    const CapacityTable& us = tables().capacities.at("small-craft-us");
    const auto find = [&](const Size& size, double insulation_c) {
        return verdict::findCapacity(us, nullptr, size, {.insulation_c = insulation_c});
    };
    // 2.5 mm2 lies between AWG 14 (2.08) and AWG 12 (3.31); 70 C between 60 C and 75 C.
    CHECK(find({SizeScale::Mm2, 2.5}, 70)->amps == 20);
    CHECK(find({SizeScale::Sae, 12}, 105)->amps == 45); // a gauge counts by its number
    CHECK_FALSE(find({SizeScale::Mm2, 0.75}, 70).has_value());
    CHECK_FALSE(find({SizeScale::Mm2, 2.5}, 59).has_value());
    // Together with others only by a table that says how much is left.
    CHECK_FALSE(verdict::findCapacity(us, nullptr, {}, {.circuits = 2}).has_value());
    const Bundling& bundle = tables().bundlings.at("bundle");
    CHECK(verdict::findCapacity(us, &bundle, {}, {.circuits = 10})->amps ==
          Approx(20 * 0.45)); // as for twelve
}

TEST_CASE("what a conductor withstands in a short circuit", "[rules]") {
    // Source: IEC 60364-4-43 table 43A: k = 115 for PVC 70 to 160 C, 143 for XLPE 90 to 250 C, 132
    // for silicone 180 to 350 C; the formula reproduces them.
    CHECK_THAT(verdict::withstandFactor(70, 160), WithinAbs(115.0, 0.1));
    CHECK_THAT(verdict::withstandFactor(90, 250), WithinAbs(143.1, 0.1));
    CHECK(verdict::withstandHeat(115, 2.5) == 82656.25);
    CHECK(verdict::withstandHeat(115, 6) == 476100);
    CHECK(tables().withstands.at(70).k == 115);
    for (const auto& [insulation_c, entry] : tables().withstands) {
        CAPTURE(insulation_c);
        CHECK_THAT(entry.k, WithinAbs(verdict::withstandFactor(insulation_c, entry.final_c), 0.6));
    }
}

TEST_CASE("blade fuses open within their window", "[rules]") {
    // Source: ISO 8820-3 types C and F (from memory).
    const FuseKind& blade = tables().fuses.at("blade");
    const FuseLimit twice = verdict::findFuseLimit(blade, 20.0 / 10);
    CHECK(twice.shortest_s == 0.15);
    CHECK(twice.longest_s == 5.0);
    const FuseLimit held = verdict::findFuseLimit(blade, 11.0 / 10);
    CHECK(held.shortest_s == 100 * 3600);
    CHECK_FALSE(held.longest_s.has_value());
    // Between two points never better than the nearer safe one.
    CHECK(verdict::findFuseLimit(blade, 3.2).longest_s == 5.0);
    CHECK(verdict::findFuseLimit(blade, 3.2).shortest_s == 0.04);
    CHECK(verdict::findFuseLimit(blade, 1.34).longest_s == std::nullopt);
    CHECK(verdict::findFuseLimit(blade, 100).longest_s == 0.1);
    // Inrush of an input capacitor, C V^2 / (2 R) = 0.99 A2 s, against 72 A2 s at 6 x 10 A.
    CHECK(1e-3 * 12.6 * 12.6 / (2 * 0.08) < 60 * 60 * verdict::findFuseLimit(blade, 6).shortest_s);
    CHECK(blade.breaking_a == 1000);
}

TEST_CASE("names of sets and states", "[rules]") {
    for (const std::string& name : verdict::ruleSetNames())
        CHECK(nameOf(verdict::findRuleSet(name).value()) == name);
    CHECK(verdict::findRuleSet("") == RuleSet::None);
    CHECK_FALSE(verdict::findRuleSet("some-other").has_value());
    CHECK(nameOf(RuleState::NotJudged) == "not-judged");
    CHECK(nameOf(Basis::Measured) == "measured");
}
