// SPDX-License-Identifier: MIT
// Resistance of conductors by size, class, length and temperature.
#include "ebbline/network.h"

#include <array>
#include <cmath>
#include <utility>

namespace ebbline::network {
namespace {

// Annealed copper at 20 C, ohm mm2/km (IEC 60028: 1/58 ohm mm2/m).
constexpr double copper_ohm_mm2_per_km = 1000.0 / 58.0;
// One circular mil in mm2: pi/4 * 0.0254^2.
constexpr double mm2_per_cmil = 5.067074790974977e-4;

// SAE minimum areas in circular mils by gauge; 0 = 1/0 ... -3 = 4/0.
constexpr std::array<std::pair<int, double>, 14> sae_cmil{{{18, 1537},
                                                           {16, 2336},
                                                           {14, 3702},
                                                           {12, 5833},
                                                           {10, 9343},
                                                           {8, 14810},
                                                           {6, 24538},
                                                           {4, 37360},
                                                           {2, 62450},
                                                           {1, 77790},
                                                           {0, 98980},
                                                           {-1, 125100},
                                                           {-2, 158600},
                                                           {-3, 205500}}};

std::optional<double> gaugeArea(const Size& size) {
    return size.scale == SizeScale::Awg ? awgArea(size.value) : saeArea(size.value);
}

} // namespace

double conductorOhm(double mohm_per_m_20c, double length_m, double celsius) {
    return mohm_per_m_20c * 1e-3 * length_m * (234.5 + celsius) / 254.5;
}

double awgDiameter(double gauge) {
    return 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
}

double awgArea(double gauge) {
    constexpr double pi = 3.14159265358979323846;
    const double diameter_mm = awgDiameter(gauge);
    return pi / 4 * diameter_mm * diameter_mm;
}

std::optional<double> saeArea(double gauge) {
    for (const auto& [size, cmil] : sae_cmil)
        if (size == gauge)
            return cmil * mm2_per_cmil;
    return std::nullopt;
}

std::optional<double>
conductorMohmPerM(const Size& size, const std::string& conductor, const Catalogues& catalogues) {
    if (size.scale != SizeScale::Mm2) {
        const auto area_mm2 = gaugeArea(size);
        return area_mm2 ? std::optional(copper_ohm_mm2_per_km / *area_mm2) : std::nullopt;
    }
    const auto by_class = catalogues.conductors.find(conductor);
    if (by_class == catalogues.conductors.end())
        return std::nullopt;
    const auto by_area = by_class->second.find(size.value);
    return by_area == by_class->second.end() ? std::nullopt : std::optional(by_area->second);
}

} // namespace ebbline::network
