// SPDX-License-Identifier: MIT
// Conductors beside published values: standards' tables, gauges, temperature, self-heating.
#include "drawn.h"
#include "published.h"

#include "ebbline/network.h"
#include "ebbline/rules.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using namespace ebbline::published;

namespace {

const Source iec_class_5{"IEC 60228:2004 table 3"};
const Source iec_temperature{"IEC 60287; FAA AC 43.13-1B 11-66"};
const Source astm{"ASTM B258"};
const Source cmil{"ASTM B258; Lessons in Electric Circuits, wire table"};

double mohmPerM(const Size& size, const std::string& conductor) {
    return network::conductorMohmPerM(size, conductor, file::embeddedModels().catalogues).value();
}

/// Of 10 m at 20 C, mohm.
double tenMetres(double mm2, const std::string& conductor) {
    return 1e3 * network::conductorOhm(mohmPerM({SizeScale::Mm2, mm2}, conductor), 10, 20);
}

/// R at 20 C over R at that temperature.
double correction(double celsius) {
    return network::conductorOhm(1, 1, 20) / network::conductorOhm(1, 1, celsius);
}

void addStandards(Sheet& sheet) {
    sheet.near({"Class 5 plain, 2.5 mm2, 10 m at 20 C", "mohm"},
               tenMetres(2.5, "class-5"),
               79.8,
               exact(),
               iec_class_5);
    sheet.near({"Class 5 tinned, 6 mm2, 10 m at 20 C", "mohm"},
               tenMetres(6, "class-5-tinned"),
               33.9,
               exact(),
               iec_class_5);
    const double five = mohmPerM({SizeScale::Mm2, 50}, "class-5");
    const double two = mohmPerM({SizeScale::Mm2, 50}, "class-2");
    sheet.near({"Class 5 plain, 50 mm2", "mohm/m"}, five, 0.386, exact(), iec_class_5);
    sheet.near(
        {"Class 2 plain, 50 mm2", "mohm/m"}, two, 0.387, exact(), {"IEC 60228:2004 table 2"});
    sheet.holds("Class 5 of 50 mm2 lies below class 2",
                five < two,
                text::number(five) + " and " + text::number(two) + " mohm/m",
                "less",
                {"IEC 60228:2004 tables 2 and 3"});
}

void addTemperature(Sheet& sheet) {
    sheet.near({"Class 5 plain, 2.5 mm2 at 70 C", "mohm/m"},
               1e3 * network::conductorOhm(mohmPerM({SizeScale::Mm2, 2.5}, "class-5"), 1, 70),
               9.548,
               percent(0.1),
               iec_temperature);
    sheet.near({"Correction from 30 C to 20 C", ""},
               correction(30),
               0.9622,
               within(2e-4),
               iec_temperature);
    sheet.near({"Correction from 90 C to 20 C", ""},
               correction(90),
               0.7843,
               within(2e-4),
               iec_temperature);
    sheet.near({"Two wires of 6 mm2, 4.7 mm apart", "uH/m"},
               1e6 * network::pairInductance(6, 4.7),
               0.590,
               percent(1),
               {"Rosa, Grover", Certainty::Memory});
    // Simplified from IEC 60287 as BS 7671 appendix 4 has it, from memory; the figures by hand.
    const Source heating{"IEC 60287, simplified as in BS 7671 appendix 4", Certainty::Memory};
    const double warm_c = verdict::conductorTemperature(30, 105, 8, 35);
    sheet.near({"Self-heating: 2.5 mm2, 8 A of 35 A, 30 C, insulation for 105 C", "C"},
               warm_c,
               33.92,
               within(0.01),
               heating);
    sheet.near({"... its resistance over that at 20 C", ""},
               1 / correction(warm_c),
               1.0547,
               within(1e-4),
               heating);
    const double hot_c = verdict::conductorTemperature(50, 105, 10, 60);
    sheet.near({"Self-heating: 6 mm2, 10 A of 60 A, 50 C, insulation for 105 C", "C"},
               hot_c,
               51.5,
               within(0.05),
               heating);
    sheet.near({"... its resistance over that at 20 C", ""},
               1 / correction(hot_c),
               1.124,
               within(5e-4),
               heating);
}

void addGauges(Sheet& sheet) {
    sheet.near({"Diameter of AWG 12", "mm"}, network::awgDiameter(12), 2.0525, within(5e-4), astm);
    sheet.near({"Diameter of AWG 36", "mm"}, network::awgDiameter(36), 0.127, exact(), astm);
    sheet.near({"Diameter of 4/0", "mm"}, network::awgDiameter(-3), 11.684, exact(), astm);
    sheet.near({"AWG 12, copper of 0.017241 ohm mm2/m", "mohm/m"},
               mohmPerM({SizeScale::Awg, 12}, "class-5"),
               5.2107,
               percent(0.01),
               {"ASTM B258 with IEC 60028", Certainty::Derived});
    const double sae_mm2 = network::saeArea(12).value();
    const double mm2_per_cmil = sae_mm2 / 5833;
    sheet.near({"6,530 circular mils", "mm2"}, 6530 * mm2_per_cmil, 3.3088, percent(0.02), cmil);
    sheet.near({"SAE 12 (5,833 circular mils) against AWG 12 (6,530)", "%"},
               (sae_mm2 / (6530 * mm2_per_cmil) - 1) * 100,
               -10.67,
               within(0.05),
               {"minimum areas of the US small-craft practice"});
}

} // namespace

TEST_CASE("conductors have the published values", "[published][network]") {
    Sheet sheet("conductors", "C");
    addStandards(sheet);
    addTemperature(sheet);
    addGauges(sheet);
    sheet.keep();
}
