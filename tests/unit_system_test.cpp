// SPDX-License-Identifier: MIT
// A controller from five numbers: fitted, written, read again, and simulated as a scene uses it.
#include "in_german.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/file.h"
#include "ebbline/text.h"
#include "ebbline/unit_telling.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

const Models& models() {
    return file::embeddedModels();
}

UnitFit fit(const UnitFigures& figures) {
    const auto pool = runs::makePool(1);
    return study::fitUnit(*pool, figures, models(), [](const std::string&) {});
}

/// What the fitter says of figures that do not do.
std::string refusal(const UnitFigures& figures) {
    try {
        static_cast<void>(fit(figures));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "";
}

/// A unit of a catalogue on a charging source of that voltage, as a scene draws it: half a metre
/// of 95 mm2 and nothing else. `use` may be empty.
Installation benchScene(const std::filesystem::path& folder,
                        const std::string& use,
                        const std::string& model,
                        double nominal_v,
                        double volts) {
    const std::string text =
        "ebbline = 1\ntitle = \"bench\"\nnominal_v = " + text::number(nominal_v) + "\n" + use +
        "part = [\n  { id = \"source\", kind = \"charger\", current_a = 500, resistance_mohm = 1, "
        "voltage_v = " +
        text::number(volts) + " },\n  { id = \"fridge\", kind = \"controller\", model = \"" +
        model +
        "\" } ]\nrun = [ { id = \"twin\", from = [\"source.plus\", \"source.minus\"], to = "
        "[\"fridge.plus\", \"fridge.minus\"], area_mm2 = 95, length_m = 0.1, joint_from = { kind = "
        "\"none\" }, joint_to = { kind = \"none\" } } ]\n";
    return file::readText(text, "bench", models().catalogues, folder).installation;
}

/// Currents of that scene: the highest of a start, and the steady one.
struct Currents {
    double start_a = 0;
    double running_a = 0;
};
Currents currentsOf(const UnitFit& made) {
    const Scratch scratch;
    std::ofstream(scratch.path() / "my.toml") << report::writeUnit(made, "my-fridge");
    const auto drawn = [&](double volts) {
        return benchScene(
            scratch.path(), "use = [\"my.toml\"]\n", "my-fridge", made.asked.nominal_v, volts);
    };
    // Four retries beyond the first try: five minutes, fifteen time constants of the pressures.
    const Start running = runs::run(drawn(made.running_at_v), {.attempts = 5}).start;
    const Start start = runs::run(drawn(made.rest_v), {.attempts = 1}).start;
    CHECK(start.outcome == Outcome::Starts);
    return {.start_a = start.peak_a.value_or(0), .running_a = running.running_a.value_or(0)};
}

} // namespace

TEST_CASE("a unit fitted to five numbers draws them when a scene uses it", "[unit]") {
    const auto figures = GENERATE(values<UnitFigures>(
        {{.nominal_v = 12, .cut_out_v = 10.4, .cut_in_v = 11.7, .start_a = 9.5, .running_a = 4.8},
         {.nominal_v = 12,
          .cut_out_v = 9.6,
          .cut_in_v = 10.9,
          .start_a = 2.9,
          .running_a = 2.1,
          .running_at_v = 12.8},
         {.nominal_v = 12, .cut_out_v = 10.7, .cut_in_v = 11.5, .start_a = 24, .running_a = 11},
         {.nominal_v = 24, .cut_out_v = 21.3, .cut_in_v = 22.7, .start_a = 5, .running_a = 2.4}}));
    CAPTURE(figures.running_a, figures.nominal_v);
    const UnitFit made = fit(figures);
    CHECK_THAT(made.running_a, WithinRel(figures.running_a, 0.002));
    CHECK_THAT(made.start_a, WithinRel(figures.start_a, 0.002));
    const Currents found = currentsOf(made);
    CHECK_THAT(found.running_a, WithinRel(figures.running_a, 0.01));
    CHECK_THAT(found.start_a, WithinRel(figures.start_a, 0.01));
}

TEST_CASE("fitted to its own currents, the unit it is fitted from comes out again", "[unit]") {
    const Scratch scratch;
    const auto drawn = [&](double volts) {
        return benchScene(scratch.path(), "", study::fitted_from, 12, volts);
    };
    const Start running = runs::run(drawn(12), {.attempts = 5}).start;
    const Start start = runs::run(drawn(12.65), {.attempts = 1}).start;
    const UnitFit made = fit({.nominal_v = 12,
                              .cut_out_v = 10.5,
                              .cut_in_v = 11.3,
                              .start_a = start.peak_a.value(),
                              .running_a = running.running_a.value()});
    const Controller own;
    CHECK_THAT(made.unit.displacement_cm3, WithinRel(own.displacement_cm3, 0.02));
    CHECK_THAT(made.unit.spin_up_s, WithinRel(own.spin_up_s, 0.02));
    CHECK_THAT(made.unit.current_limit_a, WithinRel(own.current_limit_a, 0.02));
    CHECK_THAT(made.unit.winding_ohm, WithinRel(own.winding_ohm, 0.02));
}

TEST_CASE("the written catalogue says what was measured and is read as the same unit", "[unit]") {
    UnitFit made;
    made.asked = {.nominal_v = 24, .cut_out_v = 21.3, .cut_in_v = 22.7, .start_a = 5};
    made.unit.nominal_v = 24;
    made.unit.cut_out_24_v = 21.3;
    made.unit.cut_in_24_v = 22.7;
    made.unit.spin_up_s = 0.4321;
    made.unit.inertia = 1.0 / 30;
    const std::string text = report::writeUnit(made, "my-fridge");
    CHECK_THAT(text,
               Contains("certainty = \"measured\"") && Contains("the rest ESTIMATE") &&
                   Contains("\n# Measured\nnominal_v = 24\ncut_out_24_v = 21.3\n"));
    const Scratch scratch;
    std::ofstream(scratch.path() / "my.toml") << text;
    const Installation drawn =
        benchScene(scratch.path(), "use = [\"my.toml\"]\n", "my-fridge", 24, 25);
    CHECK(std::get<Controller>(drawn.findPart("fridge")->body) == made.unit);
}

TEST_CASE("five numbers that contradict each other or lie out of reach are refused", "[unit]") {
    const UnitFigures good{
        .nominal_v = 12, .cut_out_v = 10.4, .cut_in_v = 11.7, .start_a = 9, .running_a = 4};
    const auto with = [&](auto UnitFigures::* member, double value) {
        UnitFigures changed = good;
        changed.*member = value;
        return refusal(changed);
    };
    CHECK_THAT(with(&UnitFigures::nominal_v, 48), Contains("48 V, expected 12 or 24"));
    CHECK_THAT(with(&UnitFigures::cut_in_v, 10.4),
               Contains("the cut-in is 10.4 V, expected more than the cut-out, 10.4 V"));
    CHECK_THAT(with(&UnitFigures::cut_in_v, 13), Contains("rests at 12.65 V"));
    CHECK_THAT(with(&UnitFigures::cut_out_v, 4), Contains("'cut_out_v' is 4, expected 5 to 20"));
    CHECK_THAT(with(&UnitFigures::start_a, 3.9),
               Contains("the highest start current is 3.9 A, expected no less than the running "
                        "current, 4 A"));
    CHECK_THAT(with(&UnitFigures::running_a, 0), Contains("a current is 0 A, expected more"));
    CHECK_THAT(with(&UnitFigures::running_at_v, 9), Contains("9 V, expected 10.4 to 16"));
    // Electronics and fan: 2.9 W.
    const std::string standby = with(&UnitFigures::running_a, 0.1);
    CHECK_THAT(standby, Contains("0.1 A at 12 V is out of reach") && Contains("take 0.24 A"));
    // More than the limit of the motor current lets through: named is what can be reached, and it
    // can.
    const std::string too_steep = with(&UnitFigures::start_a, 60);
    CHECK_THAT(too_steep, Contains("60 A is out of reach"));
    const std::size_t last = too_steep.rfind(" and ");
    REQUIRE(last != std::string::npos);
    const double most_a = std::stod(too_steep.substr(last + 5));
    CHECK(most_a > 9);
    CHECK(with(&UnitFigures::start_a, 0.99 * most_a).empty());
    CHECK_THAT(with(&UnitFigures::start_a, 1.02 * most_a), Contains("out of reach"));
}

TEST_CASE("a fitted unit is told in English and in German", "[unit]") {
    UnitFit made;
    made.asked.running_at_v = 12.8;
    const std::string english = report::writeFit(made);
    CHECK_THAT(english, Contains("five numbers") && Contains("Cut-out") && Contains("winding_ohm"));
    const ReadingAs reader({.language = "de"});
    checkSaid(english, report::writeFit(made));
}

TEST_CASE("the command writes the catalogue alone to standard output", "[unit]") {
    const runs::Output output =
        runs::program("unit --nominal 12 --cut-out 10.4 --cut-in 11.7 --start-a 9.5 --running-a "
                      "4.8 --id galley -o -");
    CHECK(output.status == 0);
    CHECK(output.text.starts_with("ebbline = 1\nwhat = \"parts\"\n\n[[controller]]\nid = "
                                  "\"galley\"\n"));
    CHECK(runs::program("unit --nominal 12 --cut-out 10.4 --cut-in 10 --start-a 9.5 --running-a "
                        "4.8 2>&1")
              .status == static_cast<int>(ExitCode::BadScene));
    CHECK(runs::program("unit --nominal 12 --cut-out 10.4 --cut-in 11.7 --start-a 9.5 --running-a "
                        "4.8 --id Galley 2>&1")
              .status == static_cast<int>(ExitCode::BadScene));
}
