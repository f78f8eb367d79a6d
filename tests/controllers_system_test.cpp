// SPDX-License-Identifier: MIT
// Every controller of the catalogue: it starts, runs at the power it states, and has the torque.
#include "runs.h"

#include "ebbline/embedded.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <regex>
#include <sstream>

using namespace ebbline;
using Catch::Matchers::WithinRel;

namespace {

/// Ids with the running power that the entry's source states.
std::map<std::string, double> statedWatts() {
    const std::string text(embedded::find("controllers.toml"));
    const std::regex entry("id = \"([a-z0-9-]+)\"\ncertainty = \"ESTIMATE\"\nsource = "
                           "\"[^\"]*: ([0-9.]+) W running");
    std::map<std::string, double> found;
    for (std::sregex_iterator at(text.begin(), text.end(), entry); at != std::sregex_iterator();
         ++at)
        found[(*at)[1]] = std::stod((*at)[2]);
    return found;
}

/// On a charging source of the nominal rest voltage that does not give way.
Installation onBench(const std::string& model, double nominal_v) {
    std::ostringstream text;
    text << "ebbline = 1\ntitle = \"bench\"\nnominal_v = " << nominal_v
         << "\npart = [ { id = \"source\", kind = \"charger\", current_a = 500, resistance_mohm = "
            "1, voltage_v = "
         << nominal_v / 12 * 12.65 << " }, { id = \"fridge\", kind = \"controller\", model = \""
         << model
         << "\" } ]\nrun = [ { id = \"twin\", from = [\"source.plus\", \"source.minus\"], to = "
            "[\"fridge.plus\", \"fridge.minus\"], area_mm2 = 95, length_m = 0.1 } ]\n";
    return file::readText(text.str(), "bench", file::embeddedModels().catalogues).installation;
}

const Controller& unitOf(const Installation& drawn) {
    return std::get<Controller>(drawn.findPart("fridge")->body);
}

/// Mean torque of the indicator diagram in steady running, N m; models/README.md.
double meanTorque(const Controller& unit) {
    const double n = unit.polytropic;
    const double c = unit.clearance_pct / 100;
    const double k = std::pow(unit.head_bar / unit.suction_bar, 1 / n);
    return unit.displacement_cm3 * 0.1 / (2 * std::numbers::pi) * n / (n - 1) * unit.suction_bar *
           (1 + c - c * k) * (std::pow(k, n - 1) - 1);
}

} // namespace

TEST_CASE("every controller of the catalogue states its power", "[controllers]") {
    const auto& entries = file::embeddedModels().catalogues.parts.at("controller");
    CHECK(entries.size() == 4);
    for (const auto& [id, keys] : entries) {
        CAPTURE(id);
        CHECK(statedWatts().contains(id));
    }
}

TEST_CASE("every controller starts and runs at the power it states", "[controllers]") {
    for (const auto& [id, watts] : statedWatts())
        for (const double nominal_v : {12.0, 24.0}) {
            const Installation drawn = onBench(id, nominal_v);
            const Controller& unit = unitOf(drawn);
            if (unit.nominal_v > 0 && unit.nominal_v != nominal_v)
                continue;
            CAPTURE(id, nominal_v);
            // So many tries that the pressures have settled: at least four minutes.
            const Start start = runs::run(drawn, {.attempts = 5}).start;
            CHECK(start.outcome == Outcome::Starts);
            CHECK(start.reached_speed);
            CHECK_THAT(start.running_a.value_or(0) * start.running_v.value_or(0),
                       WithinRel(watts, 0.02));
            // Twice over: the crank's torque swings about its mean.
            CHECK(unit.motor_constant * unit.current_limit_a >
                  2 * (meanTorque(unit) + unit.friction));
        }
}
