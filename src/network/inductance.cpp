// SPDX-License-Identifier: MIT
// Inductance of conductors by how they lie.
#include "ebbline/network.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ebbline::network {
namespace {

constexpr double mu0 = 4e-7 * std::numbers::pi; // H/m
constexpr double inside = 0.25;                 // of a round wire at low frequency

double solidRadius(double area_mm2) {
    return std::sqrt(area_mm2 / std::numbers::pi);
}

} // namespace

double coreDiameter(double area_mm2) {
    return 2.8 * solidRadius(area_mm2) + 0.85;
}

double pairInductance(double area_mm2, double apart_mm) {
    return mu0 / std::numbers::pi * (std::log(apart_mm / solidRadius(area_mm2)) + inside);
}

double inductanceOverMetal(double area_mm2, double height_mm) {
    return mu0 / (2 * std::numbers::pi) *
           (std::log(2 * height_mm / solidRadius(area_mm2)) + inside);
}

double inductancePerM(const Run& run, double area_mm2) {
    const double touching_mm = coreDiameter(area_mm2);
    if (run.inductance_uh)
        return *run.inductance_uh * 1e-6 / 2;
    if (run.over_metal_mm > 0)
        return inductanceOverMetal(area_mm2, std::max(run.over_metal_mm, touching_mm / 2));
    return pairInductance(area_mm2, std::max(run.apart_mm, touching_mm)) / 2;
}

} // namespace ebbline::network
