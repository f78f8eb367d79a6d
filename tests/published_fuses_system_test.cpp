// SPDX-License-Identifier: MIT
// The fuse's circuit for every rating of the catalogue: windows, melting heat, inrush.
#include "marked.h"
#include "published.h"
#include "published_figures.h"
#include "small_circuit.h"
#include "start/trace.h"

#include "ebbline/file.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

using namespace ebbline;
using namespace ebbline::published;
using namespace ebbline::small_circuit;

namespace {

const Source blade{"ISO 8820-3 types C and F", Certainty::Memory};

std::string fuseCard(double rating_a) {
    return "fuse rating_a=" + text::number(rating_a) + " holder_mohm=2 resistance_mohm=" +
           text::number(file::embeddedModels().catalogues.fuses.at(rating_a)) + "\n";
}

/// When it opens at a steady multiple of its rating, if it does within `stop_s`. A resistor beside
/// the source takes over once it is open.
std::optional<double> openingTime(double rating_a, double times, double stop_s) {
    const Solved solved = solve({.cards = "i1 0 a " + text::number(rating_a * times) +
                                          "\nr1 a 0 1000\nx1 a 0 " + fuseCard(rating_a),
                                 .models = {"fuse"},
                                 .vectors = {"v(x1.open)"},
                                 .stop_s = stop_s,
                                 .step_s = stop_s / 1000,
                                 .highest_v = 1e6,
                                 .chgtol = 1e-4});
    return start::findCrossing(solved.time_s, solved.vectors[0], 0.5, true, 0, stop_s);
}

void addWindows(Sheet& sheet, double rating_a) {
    const std::string fuse = text::number(rating_a) + " A fuse at ";
    for (const auto& [times, window] : fuseTable()) {
        const std::string amps = text::number(std::round(rating_a * times * 1000) / 1000) + " A";
        if (window.size() < 2) { // holds
            const auto opened_s = openingTime(rating_a, times, window[0]);
            sheet.holds(fuse + amps,
                        !opened_s,
                        opened_s ? text::number(*opened_s) + " s" : "holds 100 h",
                        "holds 100 h",
                        blade);
            continue;
        }
        const auto opened_s = openingTime(rating_a, times, 1.1 * window[1]);
        sheet.between({fuse + amps, "s"}, opened_s.value_or(1e9), window[0], window[1], blade);
    }
}

/// Heat at which the model's link parts when nothing of it has time to leave, A2 s: under a hundred
/// times the rating, up to the moment at which it begins to open.
double meltingHeat(double rating_a) {
    const double amps = 100 * rating_a;
    const Solved solved = solve(
        {.cards = "i1 0 a " + text::number(amps) + "\nr1 a 0 1000\nx1 a 0 " + fuseCard(rating_a),
         .models = {"fuse"},
         .vectors = {"v(x1.open)"},
         .stop_s = 4e-4,
         .step_s = 2e-7,
         .highest_v = 1e7,
         .chgtol = 1e-4});
    const auto parted_s =
        start::findCrossing(solved.time_s, solved.vectors[0], 1e-4, true, 0, 4e-4);
    return amps * amps * parted_s.value();
}

struct Inrush {
    double heat = 0; ///< A2 s
    bool opens = false;
};

/// Of an empty capacitor through a loop with the fuse in it, cold.
Inrush rush(double rating_a, double volts, double loop_ohm, double farad) {
    const double fuse_ohm = 1e-3 * (2 + file::embeddedModels().catalogues.fuses.at(rating_a));
    const Solved solved =
        solve({.cards = "v1 a 0 " + text::number(volts) + "\nr1 a b " +
                        text::number(loop_ohm - fuse_ohm) + "\nl1 b c 4e-6 ic=0\nx1 c d " +
                        fuseCard(rating_a) + "c1 d 0 " + text::number(farad) + " ic=0\n",
               .models = {"fuse"},
               .vectors = {"l1#branch", "v(x1.open)"},
               .stop_s = 5e-3,
               .step_s = 2e-6,
               .highest_v = 1e6});
    return {.heat = squareIntegral(solved, 0), .opens = std::ranges::max(solved.vectors[1]) > 0.5};
}

constexpr const char* inrush_head =
    "| fuse | melts in the model at | 0.02 s (6 In)^2 | 12.6 V, 1000 uF, 80 mohm | of melting | of "
    "0.02 s (6 In)^2 | 25.2 V, 2200 uF, 50 mohm | of melting | of 0.02 s (6 In)^2 | |\n"
    "|---|---|---|---|---|---|---|---|---|---|\n";

std::string heatWords(double heat) {
    return text::fixed(heat, 2) + " A2 s";
}

/// The row of one fuse; checks what the model itself must say of it.
std::string inrushRow(double rating_a) {
    const double melting = meltingHeat(rating_a);
    // models/README.md: 0.6 of the heat with 0.7 s, 0.4 with 60 s, parting at 1.28^2.
    const double closed = rating_a * rating_a * 1.28 * 1.28 / (0.6 / 0.7 + 0.4 / 60);
    CHECK(melting == Approx(closed).epsilon(0.01));
    const double shortest = 0.02 * 36 * rating_a * rating_a;
    const Inrush small = rush(rating_a, 12.6, 0.08, 1e-3);
    const Inrush large = rush(rating_a, 25.2, 0.05, 2.2e-3);
    // By energy C V2 / (2 R), a little less where the rush itself warms the fuse.
    CHECK(small.heat < 1.001 * 1e-3 * 12.6 * 12.6 / (2 * 0.08));
    CHECK(large.heat < 1.001 * 2.2e-3 * 25.2 * 25.2 / (2 * 0.05));
    CHECK(small.heat > 0.9 * 1e-3 * 12.6 * 12.6 / (2 * 0.08));
    CHECK(small.opens == (small.heat >= melting));
    CHECK(large.opens == (large.heat >= melting));
    std::string row =
        "| " + text::number(rating_a) + " A | " + heatWords(melting) + " | " + heatWords(shortest);
    for (const Inrush& found : {small, large})
        row += " | " + heatWords(found.heat) + " | " + text::fixed(found.heat / melting, 3) +
               " | " + text::fixed(found.heat / shortest, 3);
    const bool is_safe = large.heat < shortest;
    CHECK(is_safe == (rating_a > 3)); // the one that a large capacitor at 24 V may melt
    return row + (is_safe ? " | holds |\n"
                          : " | **25.2 V and 2200 uF exceed 0.02 s (6 In)^2**: a fuse that melts "
                            "early may open; the model's holds |\n");
}

} // namespace

TEST_CASE("fuses of every rating open within the published windows", "[published][fuse]") {
    Sheet sheet("fuses", "F");
    for (const auto& [rating_a, mohm] : file::embeddedModels().catalogues.fuses)
        addWindows(sheet, rating_a);
    CHECK(openingTime(10, 1.35, 360000).has_value()); // a run of 100 h can tell
    sheet.keep();
}

TEST_CASE("the rush into an input capacitor beside what melts a fuse", "[published][fuse]") {
    std::string made = inrush_head;
    for (const auto& [rating_a, mohm] : file::embeddedModels().catalogues.fuses)
        made += inrushRow(rating_a);
    CHECK(marked::section("tests/published.md", "inrush", made) == made);
}
