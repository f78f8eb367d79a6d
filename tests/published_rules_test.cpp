// SPDX-License-Identifier: MIT
// Drop rules, capacities, fuses and joints beside published values and worked examples.
#include "published.h"
#include "ruled.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace ebbline;
using namespace ebbline::published;

namespace {

const Source abyc{"ABYC E-11, formula and worked example"};
const Source textbook{"Lessons in Electric Circuits"};
const Source faa{"FAA AC 43.13-1B table 11-7"};
const Source faa_heat{"FAA AC 43.13-1B page 11-27, example 2", Certainty::Memory};
const Source blade{"ISO 8820-3 types C and F", Certainty::Memory};

const RuleTables& tables() {
    return file::embeddedModels().catalogues.rules;
}

double cableOhm(double mm2, double loop_m) {
    return network::conductorOhm(
        network::conductorMohmPerM(ruled::mm2(mm2), "class-5", file::embeddedModels().catalogues)
            .value(),
        loop_m,
        20);
}

void addDrops(Sheet& sheet) {
    const double craft_v = verdict::smallCraftDrop(8, 10, 2.5);
    const double cable_v = 8 * cableOhm(2.5, 10);
    const double land_v = verdict::landDrop(8, 5, 2.5);
    sheet.near({"Small-craft drop formula (0.0164): 8 A, 10 m out and back, 2.5 mm2", "V"},
               craft_v,
               0.5248,
               exact(),
               {"ISO 13297, annex on voltage drop"});
    sheet.near({"The same by resistance of class 5 plain at 20 C", "V"},
               cable_v,
               0.6384,
               exact(),
               {"IEC 60228:2004 table 3", Certainty::Derived});
    sheet.near({"The same by 0.0225 ohm mm2/m, 5 m one way", "V"},
               land_v,
               0.72,
               exact(),
               {"IEC 60364-5-52 annex G", Certainty::Memory});
    sheet.holds("Small-craft formula < real cable < land formula",
                craft_v < cable_v && cable_v < land_v,
                text::fixed(craft_v, 4) + " < " + text::fixed(cable_v, 4) + " < " +
                    text::fixed(land_v, 4),
                "rising",
                {"from the three rows above", Certainty::Derived});
    sheet.holds("No drop along no length, or without a current",
                verdict::smallCraftDrop(8, 0, 2.5) == 0 && verdict::landDrop(0, 5, 2.5) == 0 &&
                    verdict::conductorDrop(0.0164, 0, 10, 2.5) == 0 &&
                    network::conductorOhm(7.98, 0, 20) == 0,
                text::number(verdict::conductorDrop(0.0164, 8, 0, 2.5)) + " V",
                "0 V",
                {"Ohm's law", Certainty::Derived});
}

void addSizing(Sheet& sheet) {
    const double cmil = verdict::areaForDrop(verdict::us_ohm_cmil_per_ft, 10, 21, 0.36);
    sheet.near({"US sizing: 10 A over 21 ft out and back, 3 % of 12 V", "circular mils"},
               cmil,
               6270.8,
               within(0.1),
               abyc);
    sheet.near(
        {"... AWG", ""}, verdict::findGauge(cmil, SizeScale::Awg).value(), 12, exact(), abyc);
    sheet.near(
        {"... SAE", ""}, verdict::findGauge(cmil, SizeScale::Sae).value(), 10, exact(), abyc);
    sheet.near(
        {"3 % table, SAE areas: 10 A over 20 ft", "SAE"},
        verdict::findGauge(verdict::areaForDrop(10.75, 10, 20, 0.36), SizeScale::Sae).value(),
        10,
        exact(),
        {"ABYC E-11, 3 % table at 12 V"});
    sheet.near({"Constant of the US formula in metres", "ohm mm2/m"},
               verdict::us_ohm_mm2_per_m,
               0.01787,
               within(5e-6),
               {"10.75 ohm circular mils per foot", Certainty::Derived});
    sheet.near({"Sizing by drop: 25 A, 2,300 ft, 5 V per wire, copper 10.09", "circular mils"},
               verdict::areaForDrop(10.09, 25, 2300, 5),
               116035,
               within(1),
               textbook);
    sheet.near({"Aluminium bar 4 x 3 x 125 cm of 2.65 uohm cm", "uohm"},
               1e6 * verdict::conductorDrop(0.0265, 1, 1.25, 1200),
               27.604,
               within(0.01),
               textbook);
}

void addAircraft(Sheet& sheet) {
    sheet.near({"No. 6, 0.00044 ohm/ft, 107 ft, 20 A", "V"},
               20 * network::conductorOhm(0.44, 107, 20),
               0.9416,
               exact(),
               faa);
    sheet.near({"No. 12, 0.00202 ohm/ft, 88 ft, 20 A; printed as 3.60", "V"},
               20 * network::conductorOhm(2.02, 88, 20),
               3.5552,
               exact(),
               {"FAA AC 43.13-1B table 11-7, its inputs", Certainty::Derived});
    sheet.near({"No. 10, 0.00126 ohm/ft, 19.5 ft, 20 A; printed as .366", "V"},
               20 * network::conductorOhm(1.26, 19.5, 20),
               0.4914,
               exact(),
               {"FAA AC 43.13-1B table 11-8, its inputs", Certainty::Derived});
    sheet.near({"No. 14, 20 A of 26 A, 50 C, wire for 200 C: temperature", "C"},
               verdict::cautiousTemperature(50, 200, 20, 26),
               181.56,
               within(0.05),
               faa_heat);
    sheet.near({"... 15.5 ft at 20 C are worth at 182 C", "ft"},
               network::conductorOhm(1, 15.5, 20) / network::conductorOhm(1, 1, 182),
               9.471,
               within(0.01),
               faa_heat);
}

void addCapacities(Sheet& sheet) {
    const CapacityTable& us = tables().capacities.at("small-craft-us");
    const auto amps = [&](double ambient_c) {
        return verdict::findCapacity(
                   us, nullptr, ruled::awg(12), {.insulation_c = 105, .ambient_c = ambient_c})
            .value()
            .amps;
    };
    const Source table_5{"33 CFR 183.425 table 5"};
    sheet.near({"Capacity of AWG 12, 105 C", "A"}, amps(30), 45, exact(), table_5);
    sheet.near({"... in an engine space of 50 C", "A"}, amps(50), 38.25, exact(), table_5);
    ruled::Case made =
        ruled::of({.plus = ruled::awg(12), .minus = ruled::awg(12)}, "small-craft-us");
    made.settings.insulation_c = 105;
    made.drawn.surroundings.ambient_c = 30;
    sheet.near({"Largest fuse before AWG 12, 105 C, below 50 V", "A"},
               made.find("fuse-protects-conductor").limit.value(),
               67.5,
               exact(),
               {"33 CFR 183.455: 150 %"});
}

void addProtection(Sheet& sheet) {
    const Source formula{"IEC 60364-5-54 formula of k; reproduces IEC 60364-4-43 table 43A",
                         Certainty::Memory};
    const char* unit = "A s^0.5/mm2";
    sheet.near({"k of copper, 70 C to 160 C", unit},
               verdict::withstandFactor(70, 160),
               115.0,
               within(0.1),
               formula);
    sheet.near({"k of copper, 90 C to 250 C", unit},
               verdict::withstandFactor(90, 250),
               143.1,
               within(0.1),
               formula);
    const Source heat{"IEC 60364-4-43: k2 S2", Certainty::Derived};
    sheet.near({"k2 S2 of 2.5 mm2, k = 115", "A2 s"},
               verdict::withstandHeat(115, 2.5),
               82656.25,
               exact(),
               heat);
    sheet.near(
        {"k2 S2 of 6 mm2, k = 115", "A2 s"}, verdict::withstandHeat(115, 6), 476100, exact(), heat);
    const FuseKind& kind = tables().fuses.at("blade");
    const FuseLimit twice = verdict::findFuseLimit(kind, 2);
    sheet.near(
        {"Blade fuse at twice its rating: shortest", "s"}, twice.shortest_s, 0.15, exact(), blade);
    sheet.near({"... longest", "s"}, twice.longest_s.value(), 5, exact(), blade);
    sheet.near({"Blade fuse at 1.1 times its rating: holds", "s"},
               verdict::findFuseLimit(kind, 1.1).shortest_s,
               360000,
               exact(),
               blade);
    sheet.holds("Blade fuse at 1.1 times its rating need not open",
                !verdict::findFuseLimit(kind, 1.1).longest_s,
                "no upper limit",
                "no upper limit",
                blade);
}

} // namespace

TEST_CASE("drops, sizes and capacities have the published values", "[published][rules]") {
    Sheet drops("drops", "D");
    addDrops(drops);
    addSizing(drops);
    addAircraft(drops);
    drops.keep();
}

TEST_CASE("protection has the published values", "[published][rules]") {
    Sheet protection("protection", "P");
    addCapacities(protection);
    addProtection(protection);
    protection.keep();
}
