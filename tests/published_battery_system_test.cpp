// SPDX-License-Identifier: MIT
// The battery's rested voltage beside tables and beside the chemistry of its acid.
#include "drawn.h"
#include "published.h"
#include "published_figures.h"
#include "runs.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace ebbline;
using namespace ebbline::published;

namespace {

/// The circuit's open-circuit voltage of a 12 V block at that charge.
double restVolts(const std::string& chemistry, double charge_pct) {
    Installation drawn = drawn::loop({.charge_pct = charge_pct});
    std::get<Battery>(drawn.parts.front().body).chemistry = chemistry;
    const runs::Run run = runs::run(drawn, {.accuracy = Accuracy::Smooth, .attempts = 1});
    const int vector =
        run.netlist.probes[static_cast<std::size_t>(run.netlist.network.loop->battery)].source_v;
    return run.solved.vectors[static_cast<std::size_t>(vector)].front();
}

/// Of the batteries in the catalogue.
std::set<std::string> chemistries() {
    std::set<std::string> found;
    for (const auto& [model, keys] : file::embeddedModels().catalogues.parts.at("battery"))
        found.insert(std::get<std::string>(keys.at("chemistry")));
    return found;
}

/// A lithium cell's ends are printed as ranges, its plateau from memory.
Tolerance toleranceOf(const std::string& chemistry, double charge_pct) {
    if (chemistry != "lifepo4")
        return within(1e-6);
    return charge_pct == 0 ? within(0.6) : charge_pct == 100 ? within(0.1) : within(1e-6);
}

void addTables(Sheet& sheet) {
    const auto printed = restVoltageTables();
    for (const std::string& chemistry : chemistries()) {
        CAPTURE(chemistry);
        REQUIRE(printed.contains(chemistry));
        for (const auto& [charge_pct, volts] : printed.at(chemistry))
            sheet.near(
                {"`" + chemistry + "` at rest, " + text::number(charge_pct) + " % charged", "V"},
                restVolts(chemistry, charge_pct),
                volts,
                toleranceOf(chemistry, charge_pct),
                {"rested 12 V blocks at 25 C, common practice", Certainty::Memory});
    }
}

/// Volts of a lead-acid cell by the molality of its acid: the fit of Bode 1977, as an open battery
/// library has it.
double cellVolts(double molality) {
    const double l = std::log10(molality);
    const double plus = 1.628 + 0.074 * l + 0.033 * std::pow(l, 2) + 0.043 * std::pow(l, 3) +
                        0.022 * std::pow(l, 4);
    const double minus = -0.294 - 0.074 * l - 0.030 * std::pow(l, 2) - 0.031 * std::pow(l, 3) -
                         0.012 * std::pow(l, 4);
    return plus - minus;
}

void addAcid(Sheet& sheet) {
    // The fit as written here gives its printed values, so that it can be held against the model.
    for (const auto& [molality, volts] : {std::pair{1.0, 1.9220},
                                          std::pair{2.0, 1.9746},
                                          std::pair{3.0, 2.0168},
                                          std::pair{4.0, 2.0546},
                                          std::pair{5.0, 2.0896},
                                          std::pair{6.0, 2.1226}})
        CHECK(cellVolts(molality) == Approx(volts).margin(1e-4));
    struct Acid {
        double charge_pct;
        double density;
        double weight_pct;
    };
    // Densities by charge as in the table of rested voltages; weight of acid by density from
    // memory of handbook tables; 98.08 g a mole.
    const Source bode{"Bode 1977, six cells at the acid's molality", Certainty::Derived};
    for (const auto& [charge_pct, density, weight_pct] : {Acid{0, 1.120, 17.4},
                                                          Acid{25, 1.155, 22.0},
                                                          Acid{50, 1.190, 26.5},
                                                          Acid{75, 1.225, 30.8},
                                                          Acid{100, 1.265, 36.0}}) {
        const double molality = weight_pct / (100 - weight_pct) * 1000 / 98.08;
        const double volts = restVolts("wet-lead", charge_pct);
        sheet.near({"`wet-lead`, " + text::number(charge_pct) + " % charged, against acid of " +
                        text::fixed(density, 3) + " kg/l",
                    "V"},
                   volts,
                   std::round(600 * cellVolts(molality)) / 100,
                   within(0.05),
                   bode);
    }
    sheet.near({"`wet-lead`, full, against density 1.265 + 0.84 V a cell", "V"},
               restVolts("wet-lead", 100),
               12.63,
               within(0.05),
               {"rule of thumb", Certainty::Memory});
}

} // namespace

TEST_CASE("rested batteries have the published voltages", "[published][battery]") {
    Sheet sheet("battery", "B");
    addTables(sheet);
    addAcid(sheet);
    sheet.keep();
}
