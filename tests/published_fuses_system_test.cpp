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
#include <map>
#include <optional>
#include <string>

using namespace ebbline;
using namespace ebbline::published;
using namespace ebbline::small_circuit;

namespace {

const Source blade{"ISO 8820-3 types C and F", Certainty::Memory};
const Source bolted{"ISO 8820-5 bolt-in strips", Certainty::Memory};

/// A style and a rating of the catalogue.
struct Link {
    std::string style = "blade";
    double rating_a = 10;
};

const std::map<double, double>& elements(const std::string& style) {
    return file::embeddedModels().catalogues.fuses.at(style);
}

std::string fuseCard(const Link& link, double age_pct = 0) {
    std::string card =
        "fuse rating_a=" + text::number(link.rating_a) +
        " holder_mohm=2 resistance_mohm=" + text::number(elements(link.style).at(link.rating_a)) +
        " age_pct=" + text::number(age_pct);
    for (const auto& [name, value] : file::embeddedModels().catalogues.fuse_styles.at(link.style))
        card += " " + name + "=" + text::number(value);
    return card + "\n";
}

/// When it opens at a steady multiple of its rating, if it does within `stop_s`. A resistor beside
/// the source takes over once it is open.
std::optional<double>
openingTime(const Link& link, double times, double stop_s, double age_pct = 0) {
    const Solved solved = solve({.cards = "i1 0 a " + text::number(link.rating_a * times) +
                                          "\nr1 a 0 1000\nx1 a 0 " + fuseCard(link, age_pct),
                                 .models = {"fuse"},
                                 .vectors = {"v(x1.open)"},
                                 .stop_s = stop_s,
                                 .step_s = stop_s / 1000,
                                 .highest_v = 1e6,
                                 .chgtol = 1e-4});
    return start::findCrossing(solved.time_s, solved.vectors[0], 0.5, true, 0, stop_s);
}

void addWindows(Sheet& sheet, const Link& link, const Rows& windows, const Source& source) {
    const std::string fuse = text::number(link.rating_a) + " A " + link.style + " fuse at ";
    for (const auto& [times, window] : windows) {
        const std::string amps =
            text::number(std::round(link.rating_a * times * 1000) / 1000) + " A";
        if (window.size() < 2) { // holds
            const auto opened_s = openingTime(link, times, window[0]);
            const std::string hours = "holds " + text::number(window[0] / 3600) + " h";
            sheet.holds(fuse + amps,
                        !opened_s,
                        opened_s ? text::number(*opened_s) + " s" : hours,
                        hours,
                        source);
            continue;
        }
        const auto opened_s = openingTime(link, times, 1.1 * window[1]);
        sheet.between({fuse + amps, "s"}, opened_s.value_or(1e9), window[0], window[1], source);
    }
}

/// Heat at which the model's link parts when nothing of it has time to leave, A2 s: under a hundred
/// times the rating, up to the moment at which it begins to open.
double meltingHeat(double rating_a) {
    const double amps = 100 * rating_a;
    const Solved solved =
        solve({.cards = "i1 0 a " + text::number(amps) + "\nr1 a 0 1000\nx1 a 0 " +
                        fuseCard({.rating_a = rating_a}),
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
    const double fuse_ohm = 1e-3 * (2 + elements("blade").at(rating_a));
    const Solved solved = solve(
        {.cards = "v1 a 0 " + text::number(volts) + "\nr1 a b " +
                  text::number(loop_ohm - fuse_ohm) + "\nl1 b c 4e-6 ic=0\nx1 c d " +
                  fuseCard({.rating_a = rating_a}) + "c1 d 0 " + text::number(farad) + " ic=0\n",
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
    for (const auto& [rating_a, mohm] : elements("blade"))
        addWindows(sheet, {.rating_a = rating_a}, fuseTable(), blade);
    for (const auto& [rating_a, mohm] : elements("bolt-down"))
        addWindows(sheet, {"bolt-down", rating_a}, boltedFuseTable(), bolted);
    CHECK(openingTime({}, 1.35, 360000).has_value()); // a run of 100 h can tell
    sheet.keep();
}

TEST_CASE("an aged link opens where what is left of it would", "[fuse]") {
    // fuses.toml: thinner by 15 % at the end of its life, so the same as 1/0.85 of the current.
    for (const double times : {1.6, 2.0, 3.5}) {
        const auto aged_s = openingTime({}, 0.85 * times, 100, 100);
        const auto new_s = openingTime({}, times, 100);
        REQUIRE(aged_s.has_value());
        // Its time is that of the heat, which goes with the square of the current over the rating.
        CHECK(*aged_s == Approx(new_s.value_or(0)).epsilon(1e-3));
    }
    CHECK_FALSE(openingTime({}, 1.2, 1000).has_value());
    CHECK(openingTime({}, 1.2, 1000, 100).has_value());
}

TEST_CASE("the rush into an input capacitor beside what melts a fuse", "[published][fuse]") {
    std::string made = inrush_head;
    for (const auto& [rating_a, mohm] : elements("blade"))
        made += inrushRow(rating_a);
    CHECK(marked::section("tests/published.md", "inrush", made) == made);
}
