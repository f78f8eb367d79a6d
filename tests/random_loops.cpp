// SPDX-License-Identifier: MIT
// Supply loops drawn by chance: as installation for the program, as numbers for the integrator.
#include "random_loops.h"

#include "drawn.h"
#include "published_figures.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <utility>
#include <vector>

namespace ebbline::random_loops {
namespace {

/// Any of `steps` + 1 values from low to high, each as likely as the next.
struct Range {
    double low;
    double high;
    std::uint64_t steps = 1000;
};

/// What differs between the three kinds of loops.
struct Ranges {
    Range length_m; ///< of the cable one way
    std::vector<double> areas_mm2;
    Range joint_mohm;      ///< each of eight
    Range current_limit_a; ///< of the motor
    Range pressure_pct;    ///< left from before
};

/// The table of ranges, first part: by kind.
Ranges rangesOf(Kind kind) {
    switch (kind) {
    case Kind::Fair:
        return {.length_m = {1, 6},
                .areas_mm2 = {2.5, 4, 6, 10},
                .joint_mohm = {0.1, 2},
                .current_limit_a = {12, 25},
                .pressure_pct = {0, 40}};
    case Kind::Thin:
        return {.length_m = {9, 15},
                .areas_mm2 = {1, 1.5},
                .joint_mohm = {0.1, 6},
                .current_limit_a = {12, 25},
                .pressure_pct = {0, 40}};
    case Kind::Weak:
        return {.length_m = {1, 9},
                .areas_mm2 = {2.5, 4, 6, 10},
                .joint_mohm = {0.1, 2},
                .current_limit_a = {1, 5},
                .pressure_pct = {0, 100}};
    }
    return {};
}

/// Second part: the same for all.
constexpr Range ambient_c{-10, 40};
constexpr Range capacity_ah{50, 220};
constexpr Range charge_pct{30, 100};
constexpr Range inductance_uh{0.3, 1.5}; ///< of the pair per metre, half of the time
constexpr Range apart_mm{0, 200};        ///< of out and back, the other half of the time
constexpr Range holder_mohm{0.5, 10};
constexpr Range filter_s{0.004, 0.05};
constexpr Range capacitor_uf{470, 4700};
constexpr Range esr_mohm{10, 60};
constexpr Range input_mohm{2, 10};
constexpr Range spin_up_s{0.3, 1};
constexpr Range build_s{2, 4}; ///< quick, so that an attempt ends soon
constexpr Range position_a{6, 12};
constexpr Range friction{0.01, 0.03};
constexpr Range inertia{1e-4, 4e-4};
constexpr Range start_angle_rad{0, 6.2};
/// Large enough never to open, with their cold resistances.
constexpr std::array<std::pair<double, double>, 3> fuses{{{20, 3.3}, {25, 2.4}, {30, 1.9}}};
constexpr std::array<const char*, 3> classes{"class-5", "class-5-tinned", "class-2"};

class Draws {
public:
    explicit Draws(std::uint64_t seed) : m_random(seed) {}
    double from(const Range& range) {
        return range.low + (range.high - range.low) *
                               static_cast<double>(m_random() % (range.steps + 1)) /
                               static_cast<double>(range.steps);
    }
    template <class Things>
    const auto& of(const Things& things) {
        return things[m_random() % things.size()];
    }
    bool tosses() { return m_random() % 2 == 0; }

private:
    std::mt19937_64 m_random;
};

void drawUnit(Draws& draws, const Ranges& ranges, Controller& unit) {
    unit.filter_s = draws.from(filter_s);
    unit.capacitor_uf = draws.from(capacitor_uf);
    unit.esr_mohm = draws.from(esr_mohm);
    unit.input_mohm = draws.from(input_mohm);
    unit.current_limit_a = draws.from(ranges.current_limit_a);
    unit.spin_up_s = draws.from(spin_up_s);
    unit.pressure_pct = draws.from(ranges.pressure_pct);
    unit.build_s = draws.from(build_s);
    unit.position_a = draws.from(position_a);
    unit.friction = draws.from(friction);
    unit.inertia = draws.from(inertia);
    unit.start_angle_rad = draws.from(start_angle_rad);
}

/// H/m of the pair: mu0/pi (ln(D/r) + 1/4), D at least the diameter of a core.
double pairHenryPerM(double area_mm2, double axes_mm) {
    const double radius_mm = std::sqrt(area_mm2 / std::numbers::pi);
    const double distance_mm = std::max(axes_mm, 2.8 * radius_mm + 0.85);
    return 4e-7 * (std::log(distance_mm / radius_mm) + 0.25);
}

} // namespace

std::string nameOf(Kind kind) {
    return kind == Kind::Fair ? "fair" : kind == Kind::Thin ? "thin" : "weak";
}

Pair draw(Kind kind, std::uint64_t seed) {
    Draws draws(seed * 3 + static_cast<std::uint64_t>(kind));
    const Ranges ranges = rangesOf(kind);
    const drawn::Loop loop{.length_m = draws.from(ranges.length_m),
                           .area_mm2 = draws.of(ranges.areas_mm2),
                           .conductor = draws.of(classes),
                           .joint_mohm = draws.from(ranges.joint_mohm),
                           .charge_pct = draws.from(charge_pct)};
    Pair pair{.drawn = drawn::loop(loop), .setup = {}};
    pair.drawn.surroundings.ambient_c = draws.from(ambient_c);
    auto& battery = std::get<Battery>(pair.drawn.parts[0].body);
    battery.capacity_ah = draws.from(capacity_ah);
    auto& fuse = std::get<Fuse>(pair.drawn.parts[2].body);
    const auto [rating_a, element_mohm] = draws.of(fuses);
    fuse = {.rating_a = rating_a,
            .holder_mohm = draws.from(holder_mohm),
            .resistance_mohm = element_mohm};
    const bool is_stated = draws.tosses();
    const double stated_uh = draws.from(inductance_uh);
    const double apart = draws.from(apart_mm);
    for (Run& run : pair.drawn.runs) {
        if (is_stated)
            run.inductance_uh = stated_uh;
        else
            run.apart_mm = apart;
    }
    drawUnit(draws, ranges, drawn::unitOf(pair.drawn));

    // By hand: IEC 60228 as printed, copper's temperature by IEC 60287, eight joints, the isolator.
    const double mohm_per_m = published::conductorTables().at(loop.conductor).at(loop.area_mm2);
    const double warmth = (234.5 + pair.drawn.surroundings.ambient_c) / 254.5;
    const double metres = 2 * loop.length_m;
    const double henry_per_m =
        (is_stated ? stated_uh * 1e-6 : pairHenryPerM(loop.area_mm2, apart)) / 2;
    pair.setup = {.capacity_ah = battery.capacity_ah,
                  .charge = loop.charge_pct / 100,
                  .temperature_c = pair.drawn.surroundings.ambient_c,
                  .loop_ohm = (mohm_per_m * metres * warmth + 8 * loop.joint_mohm + 1) * 1e-3,
                  .loop_henry = henry_per_m * metres,
                  .fuse_rating_a = rating_a,
                  .holder_ohm = fuse.holder_mohm * 1e-3,
                  .element_ohm = element_mohm * 1e-3,
                  .unit = drawn::unitOf(pair.drawn)};
    return pair;
}

} // namespace ebbline::random_loops
