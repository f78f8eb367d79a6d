// SPDX-License-Identifier: MIT
// Formulas of the rules as published; the simulation does not use them.
#include "ebbline/rules.h"

#include <array>
#include <cmath>

namespace ebbline::verdict {
namespace {

// One circular mil in mm2: pi/4 * 0.0254^2.
constexpr double mm2_per_cmil = 5.067074790974977e-4;

} // namespace

double conductorDrop(double ohm_mm2_per_m, double amps, double length_m, double area_mm2) {
    return ohm_mm2_per_m * amps * length_m / area_mm2;
}

double areaForDrop(double ohm_cmil_per_ft, double amps, double out_and_back_ft, double drop_v) {
    return ohm_cmil_per_ft * amps * out_and_back_ft / drop_v;
}

std::optional<double> findGauge(double circular_mils, SizeScale scale) {
    static constexpr std::array<double, 14> gauges{
        18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3};
    for (const double gauge : gauges) {
        const auto area_mm2 = scale == SizeScale::Sae ? network::saeArea(gauge)
                                                      : std::optional(network::awgArea(gauge));
        if (area_mm2 && *area_mm2 / mm2_per_cmil >= circular_mils)
            return gauge;
    }
    return std::nullopt;
}

double conductorTemperature(double ambient_c, double rating_c, double amps, double capacity_a) {
    const double share = amps / capacity_a;
    return ambient_c + (rating_c - ambient_c) * share * share;
}

double cautiousTemperature(double ambient_c, double rating_c, double amps, double capacity_a) {
    return ambient_c + (rating_c - ambient_c) * std::sqrt(amps / capacity_a);
}

double withstandFactor(double first_c, double final_c) {
    return 226 * std::sqrt(std::log(1 + (final_c - first_c) / (234.5 + first_c)));
}

double withstandHeat(double k, double area_mm2) {
    return k * area_mm2 * k * area_mm2;
}

FuseLimit findFuseLimit(const FuseKind& kind, double times) {
    FuseLimit found{.times = times};
    for (const FuseLimit& limit : kind.limits) {
        // A larger current opens it no later than a smaller one, and the other way round.
        if (limit.times <= times)
            found.longest_s = limit.longest_s;
        if (limit.times >= times) {
            found.shortest_s = limit.shortest_s;
            break;
        }
    }
    return found;
}

} // namespace ebbline::verdict
