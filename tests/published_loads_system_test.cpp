// SPDX-License-Identifier: MIT
// Constant power behind a resistance and an inductance: what it settles at, where it collapses,
// and from which power on it swings ever wider.
#include "drawn.h"
#include "published.h"
#include "small_circuit.h"

#include "ebbline/file.h"
#include "ebbline/network.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

using namespace ebbline;
using namespace ebbline::published;
using namespace ebbline::small_circuit;

namespace {

const Source settled{"V = (V0 + sqrt(V0^2 - 4 P R)) / 2", Certainty::Derived};

/// An ideal load behind a resistance, settled onto the upper of its two solutions.
Solved ideal(double volts, double ohm, double watts) {
    return solve({.cards = "v1 a 0 " + text::number(volts) + "\nx1 a b joint ohm=" +
                           text::number(ohm) + "\nc1 b 0 1e-3 ic=" + text::number(volts) +
                           "\nb1 b 0 I=" + text::number(watts) + "/max(v(b),1)\n",
                  .models = {"joint"},
                  .vectors = {"v(b)", "v.x1.vi#branch"},
                  .stop_s = 0.5});
}

double cableOhm(double mm2) {
    const auto mohm = network::conductorMohmPerM(
        {SizeScale::Mm2, mm2}, "class-5", file::embeddedModels().catalogues);
    return network::conductorOhm(mohm.value(), 10, 20);
}

void addSettled(Sheet& sheet) {
    const Solved sixty = ideal(12.6, 0.3, 60);
    sheet.near(
        {"60 W behind 0.3 ohm, 12.6 V", "V"}, last(sixty, 0), 10.9573, within(1e-4), settled);
    sheet.near({"...", "A"}, last(sixty, 1), 5.4758, within(1e-4), settled);
    sheet.near({"100 W behind 0.3 ohm, 12.6 V", "V"},
               last(ideal(12.6, 0.3, 100), 0),
               9.4129,
               within(1e-4),
               settled);
    sheet.near({"60 W behind 0.25 ohm, 12 V", "V"},
               last(ideal(12, 0.25, 60), 0),
               10.5826,
               within(1e-4),
               settled);
    const Source limit{"R = (V0 - V) V / P", Certainty::Derived};
    sheet.near({"Greatest loop for 60 W above 10.5 V, 0.3675 ohm: leaves of 12.6 V", "V"},
               last(ideal(12.6, 0.3675, 60), 0),
               10.5,
               percent(1e-3),
               limit);
    sheet.near({"... above 21 V, 1.47 ohm: leaves of 25.2 V", "V"},
               last(ideal(25.2, 1.47, 60), 0),
               21,
               percent(1e-3),
               limit);
}

void addReference(Sheet& sheet) {
    const Source paper{"IEC 60228:2004 table 3 and the formula above", Certainty::Derived};
    const double ohm = network::loopOhm(network::build(drawn::loop({.length_m = 5}),
                                                       file::embeddedModels().catalogues)) +
                       0.012;
    const Solved sound = ideal(12.6, ohm, 60);
    sheet.near({"60 W on the reference loop of 103.5 mohm", "V"},
               last(sound, 0),
               12.0862,
               percent(0.01),
               paper);
    sheet.near({"...", "A"}, last(sound, 1), 4.9643, percent(0.01), paper);
    const Solved bad = ideal(12.6, ohm + 0.15, 60);
    sheet.near(
        {"... with a crimp of 150 mohm more", "V"}, last(bad, 0), 11.2477, percent(0.01), paper);
    sheet.near({"...", "A"}, last(bad, 1), 5.3344, percent(0.01), paper);
    sheet.near({"... lost in the crimp", "V"}, last(bad, 1) * 0.15, 0.8002, percent(0.01), paper);
    for (const auto& [mm2, share] : {std::pair{1.5, 5.31},
                                     std::pair{2.5, 3.11},
                                     std::pair{4.0, 1.91},
                                     std::pair{6.0, 1.26},
                                     std::pair{10.0, 0.73}})
        sheet.near({"60 W over 10 m of " + text::number(mm2) + " mm2 class 5, 12.6 V: drop", "%"},
                   (1 - last(ideal(12.6, cableOhm(mm2), 60), 0) / 12.6) * 100,
                   share,
                   within(0.01),
                   paper);
}

/// The greatest power at which the voltage stays above half the source's, to a thousandth.
double collapse(double volts, double most_w, const auto& settle) {
    double held = 0;
    double lost = most_w;
    while (lost - held > 1e-4 * most_w) {
        const double watts = (held + lost) / 2;
        (settle(watts) > volts / 2 ? held : lost) = watts;
    }
    return (held + lost) / 2;
}

/// The program's part, switched on slowly with its capacitor full; its floor of 6 V lies below a
/// third of 25.2 V.
double partSettles(double watts) {
    return last(
        solve(
            {.cards = "v1 a 0 25.2\nx1 a b joint ohm=0.3\nvon on 0 PWL(0 0 0.1 0 0.6 1)\nx2 b 0 on "
                      "load_power capacitor_uf=1000 on=0 follow_s=1e-5 power_w=" +
                      text::number(watts) + "\n",
             .models = {"joint", "load_power"},
             .vectors = {"v(b)"},
             .stop_s = 1}),
        0);
}

void addCollapse(Sheet& sheet) {
    const Source power{"V0^2 / (4 R)", Certainty::Derived};
    sheet.near({"Collapse of ideal constant power behind 0.3 ohm, 12.6 V", "W"},
               collapse(12.6, 200, [](double watts) { return last(ideal(12.6, 0.3, watts), 0); }),
               132.30,
               percent(0.5),
               power);
    const double above_v = last(ideal(12.6, 0.3, 132.4), 0);
    sheet.holds("... 132.4 W have no solution",
                above_v < 6.3,
                above_v < 6.3 ? "collapses" : text::fixed(above_v, 2) + " V",
                "below 6.3 V",
                power);
    sheet.near(
        {"Collapse of the constant-power part (`load_power.lib`) behind 0.3 ohm, 25.2 V", "W"},
        collapse(25.2, 800, partSettles),
        529.20,
        percent(0.5),
        power);
}

/// A source, a cable and a load with its input capacitor.
struct Feed {
    double volts;
    double ohm;
    double henry;
    double farad;
    double esr_ohm;
    bool is_part; ///< the program's part, whose ESR is 50 mohm; else an ideal load
};

double periodOf(const Feed& feed) {
    return 2 * std::numbers::pi * std::sqrt(feed.henry * feed.farad);
}

/// What the load settles at.
double operatingVolts(const Feed& feed, double watts) {
    return (feed.volts + std::sqrt(feed.volts * feed.volts - 4 * watts * feed.ohm)) / 2;
}

/// By the closed form with V the operating voltage.
double growingPower(const Feed& feed) {
    double watts = 0;
    for (int i = 0; i < 50; ++i) {
        const double volts = operatingVolts(feed, watts);
        watts = volts * volts * feed.farad * (feed.ohm + feed.esr_ohm) /
                (feed.henry + feed.ohm * feed.esr_ohm * feed.farad);
    }
    return watts;
}

std::string loadCards(const Feed& feed, double watts, double start_v) {
    // The part is switched on slowly once its capacitor is full: a rush would set it swinging.
    if (feed.is_part)
        return "von on 0 PWL(0 0 " + text::number(60 * periodOf(feed)) + " 0 " +
               text::number(140 * periodOf(feed)) +
               " 1)\nx2 b 0 on load_power on=0 follow_s=1e-7 capacitor_uf=" +
               text::number(feed.farad * 1e6) + " power_w=" + text::number(watts) + "\n";
    const std::string esr =
        feed.esr_ohm > 0 ? "rc b c " + text::number(feed.esr_ohm) + "\n" : "vc b c 0\n";
    return esr + "c1 c 0 " + text::number(feed.farad) + " ic=" + text::number(start_v) +
           "\nb1 b 0 I=" + text::number(watts) + "/max(v(b),1)\n";
}

constexpr double quiet_periods = 150;

/// Settled running, kicked once by a fiftieth of the current, for 70 periods more; 400 steps a
/// period by the trapezoidal rule.
Solved kick(const Feed& feed, double watts) {
    const double period_s = periodOf(feed);
    const double volts = operatingVolts(feed, watts);
    const double kick_s = quiet_periods * period_s;
    return solve({.cards = "v1 a 0 " + text::number(feed.volts) + "\nr1 a m " +
                           text::number(feed.ohm) + "\nl1 m b " + text::number(feed.henry) +
                           " ic=" + text::number(feed.is_part ? 0 : watts / volts) + "\n" +
                           loadCards(feed, watts, volts) + "ik 0 b PWL(0 0 " +
                           text::number(kick_s) + " 0 " + text::number(kick_s + period_s / 50) +
                           " " + text::number(0.02 * watts / volts) + ")\n",
                  .models = feed.is_part ? std::vector<std::string>{"load_power"}
                                         : std::vector<std::string>{},
                  .vectors = {"v(b)"},
                  .stop_s = kick_s + 70 * period_s,
                  .step_s = period_s / 400});
}

/// Highest less lowest voltage in so many periods, from so many after the kick on.
double swing(const Feed& feed, const Solved& solved, double after, double periods) {
    const double from_s = (quiet_periods + after) * periodOf(feed);
    const double to_s = from_s + periods * periodOf(feed);
    double least = std::numeric_limits<double>::infinity();
    double most = -least;
    for (std::size_t i = 0; i < solved.time_s.size(); ++i)
        if (solved.time_s[i] >= from_s && solved.time_s[i] < to_s) {
            least = std::min(least, solved.vectors[0][i]);
            most = std::max(most, solved.vectors[0][i]);
        }
    return most - least;
}

/// Per period, of the swing's logarithm: above 0 it grows.
double growth(const Feed& feed, double watts) {
    const Solved solved = kick(feed, watts);
    return std::log(swing(feed, solved, 55, 10) / swing(feed, solved, 5, 10)) / 50;
}

void addGrowth(Sheet& sheet, const std::string& what, const Feed& feed) {
    const Source closed{"V^2 C (R + r) / (L + R r C); Middlebrook 1976 (from memory)",
                        Certainty::Derived};
    const double watts = growingPower(feed);
    // Growth is nearly straight in the power: where it crosses zero.
    const double low = growth(feed, 0.97 * watts);
    const double high = growth(feed, 1.03 * watts);
    CAPTURE(what, watts, low, high);
    CHECK(low < 0);
    CHECK(high > 0);
    sheet.near({"Smallest growing power, " + what, "W"},
               watts * (0.97 - 0.06 * low / (high - low)),
               std::round(watts * 100) / 100,
               percent(3),
               closed);
}

} // namespace

TEST_CASE("constant power settles, collapses and swings as derived", "[published][closed]") {
    Sheet sheet("loads", "L");
    addSettled(sheet);
    addReference(sheet);
    addCollapse(sheet);
    addGrowth(sheet, "ideal: 12 V, 20 mohm, 10 uH, 47 uF", {12, 0.02, 10e-6, 47e-6, 0, false});
    addGrowth(sheet,
              "ideal: 12 V, 40 mohm, 20 uH, 100 uF, ESR 20 mohm",
              {12, 0.04, 20e-6, 100e-6, 0.02, false});
    addGrowth(sheet,
              "ideal: 24 V, 30 mohm, 15 uH, 22 uF, ESR 5 mohm",
              {24, 0.03, 15e-6, 22e-6, 0.005, false});
    addGrowth(sheet, "the part: 12 V, 20 mohm, 10 uH, 47 uF", {12, 0.02, 10e-6, 47e-6, 0.05, true});
    // 100 W are far beyond it: the kick itself would move the load by less than 0.1 V.
    const Feed bare{12, 0.02, 10e-6, 47e-6, 0, false};
    const double widest_v = swing(bare, kick(bare, 100), 0, 70);
    sheet.holds("100 W: 12 V, 20 mohm, 10 uH, 47 uF",
                widest_v > 5,
                widest_v > 5 ? "swings over more than 5 V" : text::number(widest_v) + " V",
                "swings ever wider",
                {"the same criterion", Certainty::Derived});
    sheet.keep();
}
