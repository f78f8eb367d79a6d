// SPDX-License-Identifier: MIT
// The engine and the conductor, joint and meter models beside worked examples and closed forms.
#include "drawn.h"
#include "published.h"
#include "runs.h"
#include "small_circuit.h"
#include "start/trace.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace ebbline;
using namespace ebbline::published;
using namespace ebbline::small_circuit;

namespace {

const Source textbook{"Lessons in Electric Circuits"};
const Source step_response{"series R-L-C step", Certainty::Derived};
const Source kirchhoff{"Kirchhoff's voltage law", Certainty::Derived};

std::string card(const std::string& name, const std::string& model, double ohm) {
    return name + " " + model + " ohm=" + text::number(ohm);
}

/// Step of 12.6 V through the conductor model into a capacitor of 1000 uF without ESR.
Solved inrush(double ohm, double henry, double stop_s) {
    return solve({.cards = "v1 a 0 12.6\n" + card("x1 a b", "conductor", ohm) +
                           " henry=" + text::number(henry) + "\nc1 b 0 1e-3 ic=0\n",
                  .models = {"conductor"},
                  .vectors = {"v(b)", "l.x1.lw#branch"},
                  .stop_s = stop_s,
                  .step_s = 1e-6});
}

void addPower(Sheet& sheet) {
    for (const auto& [ohm, watts] :
         {std::pair{0.5, 37.112}, std::pair{0.8, 39.200}, std::pair{1.1, 38.223}}) {
        const Solved solved = solve({.cards = "v1 a 0 11.2\n" + card("x1 a b", "joint", 0.8) +
                                              "\n" + card("x2 b 0", "joint", ohm) + "\n",
                                     .models = {"joint"},
                                     .vectors = {"v(b)", "v.x2.vi#branch"}});
        sheet.near({"11.2 V behind 0.8 ohm into " + text::number(ohm) + " ohm", "W"},
                   last(solved, 0) * last(solved, 1),
                   watts,
                   within(1e-3),
                   textbook);
    }
}

void addCharging(Sheet& sheet) {
    const Solved capacitor =
        solve({.cards = "v1 a 0 15\n" + card("x1 a b", "joint", 1e4) + "\nc1 b 0 1e-4 ic=0\n",
               .models = {"joint"},
               .vectors = {"v(b)"},
               .stop_s = 7.25,
               .step_s = 0.01});
    sheet.near({"15 V through 10 kohm into 100 uF after 7.25 s", "V"},
               last(capacitor, 0),
               14.98935,
               percent(0.1),
               textbook);
    const Solved coil =
        solve({.cards = "v1 a 0 15\n" + card("x1 a 0", "conductor", 1) + " henry=1\n",
               .models = {"conductor"},
               .vectors = {"l.x1.lw#branch"},
               .stop_s = 3.5,
               .step_s = 0.01});
    sheet.near({"15 V across 1 ohm and 1 H after 3.5 s", "A"},
               last(coil, 0),
               14.54704,
               percent(0.1),
               textbook);
    const Solved divided = solve({.cards = "v1 a d 20\n" + card("x1 a b", "joint", 2000) + "\n" +
                                           card("x2 b 0", "joint", 500) + "\n" +
                                           card("x3 0 d", "joint", 3000) + "\nc1 b 0 1e-4 ic=0\n",
                                  .models = {"joint"},
                                  .vectors = {"v(b)"},
                                  .stop_s = 0.06,
                                  .step_s = 1e-4});
    sheet.near({"20 V, 2 and 3 kohm in the way, 500 ohm across 100 uF, after 60 ms", "V"},
               last(divided, 0),
               1.3325,
               percent(0.1),
               textbook);
}

/// 24 V, 1 H, 0.25 F from an initial voltage and current.
Solved seriesStep(double ohm, double volts, double amps) {
    return solve({.cards = "v1 a 0 24\n" + card("x1 a b", "joint", ohm) + "\nl1 b c 1 ic=" +
                           text::number(amps) + "\nc1 c 0 0.25 ic=" + text::number(volts) + "\n",
                  .models = {"joint"},
                  .vectors = {"v(c)", "l1#branch"},
                  .stop_s = 2});
}

void addSeriesSteps(Sheet& sheet) {
    // The problem from memory; its values by integration of the same two equations.
    const Source problem{"Alexander and Sadiku, Fundamentals of Electric Circuits, example 8.7",
                         Certainty::Memory};
    struct Point {
        double at_s;
        double volts;
        double amps;
    };
    const auto add = [&](const std::string& what,
                         const Solved& solved,
                         const std::vector<Point>& points,
                         double share) {
        for (const auto& [at_s, volts, amps] : points) {
            const std::string when = what + " at " + text::number(at_s) + " s";
            sheet.near({when, "V"},
                       start::valueAt(solved.time_s, solved.vectors[0], at_s),
                       volts,
                       percent(share),
                       problem);
            sheet.near({"...", "A"},
                       start::valueAt(solved.time_s, solved.vectors[1], at_s),
                       amps,
                       percent(share),
                       problem);
        }
    };
    add("24 V, 5 ohm, 1 H, 0.25 F, overdamped",
        seriesStep(5, 4, 4),
        {{0.5, 11.2411, 3.0544}, {1, 16.1763, 1.9376}, {2, 21.1133, 0.7213}},
        0.1);
    add("24 V, 1 ohm, 1 H, 0.25 F, underdamped",
        seriesStep(1, 12, 12),
        {{0.5, 32.620, 7.285}, {1, 38.888, -0.848}, {2, 21.956, -4.047}},
        0.2);
}

void addInrush(Sheet& sheet) {
    const Solved damped = inrush(0.08, 4e-6, 2e-3);
    const auto [peak_a, peak_s] = peakOf(damped, 1);
    const std::string first = "Inrush: 12.6 V, 80 mohm, 4 uH, 1000 uF: ";
    sheet.near({first + "peak", "A"}, peak_a, 96.64, percent(1), step_response);
    sheet.near({"... its time", "us"}, peak_s * 1e6, 72.35, percent(1), step_response);
    sheet.near(
        {"... highest voltage", "V"}, peakOf(damped, 0).first, 13.569, percent(1), step_response);
    const Solved slow = inrush(0.15, 4e-6, 4e-3);
    sheet.near({"The same with 150 mohm: peak", "A"},
               peakOf(slow, 1).first,
               65.17,
               percent(1),
               step_response);
    const double highest_v = std::ranges::max(slow.vectors[0]);
    sheet.holds("... does not overshoot",
                highest_v < 12.6 * (1 + 1e-5),
                text::fixed(highest_v, 3) + " V",
                "at most 12.6 V",
                step_response);
    const double under_v = std::ranges::max(inrush(0.126491 * 0.9, 4e-6, 2e-3).vectors[0]);
    const double over_v = std::ranges::max(inrush(0.126491 * 1.01, 4e-6, 4e-3).vectors[0]);
    sheet.holds("It overshoots at 0.9, not at 1.01 times the critical 126.491 mohm",
                under_v > 12.6 * 1.0001 && over_v < 12.6 * 1.0001,
                text::fixed(under_v, 4) + " and " + text::fixed(over_v, 4) + " V",
                "above and not above 12.6013 V",
                step_response);
    for (const double henry : {1e-6, 4e-6, 20e-6})
        sheet.near(
            {"Heat of the rush through 80 mohm, " + text::number(henry * 1e6) + " uH", "A2 s"},
            squareIntegral(inrush(0.08, henry, 5e-3), 1),
            0.9922,
            percent(1),
            {"energy: C V2 / (2 R)", Certainty::Derived});
}

/// The resistance that would just not overshoot, from how far 80 mohm overshoot.
double criticalOhm() {
    constexpr double ohm = 0.08;
    const Solved solved = solve({.cards = "v1 a 0 12.6\n" + card("x1 a b", "joint", ohm) +
                                          "\nl1 b c 4e-6 ic=0\nc1 c 0 1e-3 ic=0\n",
                                 .models = {"joint"},
                                 .vectors = {"v(c)"},
                                 .stop_s = 4e-4,
                                 .step_s = 1e-7});
    const double decay = std::log(peakOf(solved, 0).first / 12.6 - 1);
    const double damping = -decay / std::hypot(std::numbers::pi, decay);
    return ohm / damping;
}

void addLoops(Sheet& sheet) {
    sheet.near({"Critical resistance of 4 uH and 1000 uF", "ohm"},
               criticalOhm(),
               0.126491,
               within(1e-5),
               {"2 sqrt(L / C)", Certainty::Derived});
    const Network network =
        network::build(drawn::loop({.length_m = 5}), file::embeddedModels().catalogues);
    const double ohm = network::loopOhm(network) + 0.012;
    const Source paper{"IEC 60228:2004 table 3, the rest by hand", Certainty::Derived};
    sheet.near(
        {"Loop of 10 m 2.5 mm2 tinned; battery 12, isolator 1, fuse 6, eight joints 0.3 mohm",
         "mohm"},
        ohm * 1e3,
        103.5,
        percent(0.01),
        paper);
    const Solved solved =
        solve({.cards = "v1 a 0 12.6\n" + card("x1 a b", "joint", ohm) + "\ni1 b 0 8\n",
               .models = {"joint"},
               .vectors = {"v(b)"}});
    sheet.near(
        {"... what 8 A leave of 12.6 V", "V"}, last(solved, 0), 11.772, percent(0.01), paper);
}

void addMeters(Sheet& sheet) {
    // No load behind a joint of 1 ohm: a meter of 10 Mohm, as the circuit has it, sees nothing.
    const double meter_ohm = Meter{}.resistance_mohm / 1000;
    const Solved idle = solve({.cards = "v1 a 0 12.6\n" + card("x1 a b", "joint", 1) + "\n" +
                                        card("x2 b 0", "joint", meter_ohm) + "\n",
                               .models = {"joint"},
                               .vectors = {"v(b)"}});
    sheet.near({"Meter of 10 Mohm behind a joint of 1 ohm, no load, 12.6 V", "V"},
               last(idle, 0),
               12.6,
               within(1e-5),
               {"divider: R / 10 Mohm", Certainty::Derived});
    for (const auto& [stud, amps, mohm] : {std::tuple{"6-32", 25.0, 0.300},
                                           std::tuple{"8-32", 30.0, 0.250},
                                           std::tuple{"10-32", 35.0, 0.214},
                                           std::tuple{"1/4-28", 43.0, 0.174}}) {
        const Solved joint = solve({.cards = "i1 0 a " + text::number(amps) + "\n" +
                                             card("x1 a 0", "joint", mohm * 1e-3) + "\n",
                                    .models = {"joint"},
                                    .vectors = {"v(a)"}});
        sheet.near({"Stud terminal " + std::string(stud) + ": joint of " + text::fixed(mohm, 3) +
                        " mohm at " + text::number(amps) + " A",
                    "mV"},
                   last(joint, 0) * 1e3,
                   7.5,
                   within(0.05),
                   {"MIL-DTL-83454A 4.5.3: 7.5 mV"});
    }
    const double ring_mohm = file::embeddedModels().catalogues.joints.at("ring").at("new");
    sheet.holds("A new ring terminal of the catalogue loses no more",
                ring_mohm <= 7.5 / 43,
                text::number(ring_mohm) + " mohm",
                "at most 0.174 mohm",
                {"MIL-DTL-83454A 4.5.3"});
}

void addClosure(Sheet& sheet) {
    double worst_v = 0;
    int loops = 0;
    for (const std::string& name : drawn::sceneNames()) {
        const Start start = runs::run(drawn::scene(name), {.attempts = 1}).start;
        CAPTURE(name);
        CHECK(start.ledger.has_value() == start.lowest_v.has_value());
        if (!start.ledger)
            continue; // never driven
        ++loops;
        worst_v = std::max(worst_v, std::abs(start.ledger->error()));
    }
    CHECK(loops > 10);
    sheet.holds("Drops of each loop sum to its source, at the lowest moment of every scene",
                worst_v < 1e-6,
                worst_v < 1e-6 ? "below 1e-6 V" : text::number(worst_v) + " V",
                "0 V within 1e-6 V",
                kirchhoff);
}

} // namespace

TEST_CASE("circuits do what closed forms say", "[published][closed]") {
    Sheet sheet("circuits", "S");
    addPower(sheet);
    addCharging(sheet);
    addSeriesSteps(sheet);
    addInrush(sheet);
    addLoops(sheet);
    addMeters(sheet);
    addClosure(sheet);
    sheet.keep();
}
