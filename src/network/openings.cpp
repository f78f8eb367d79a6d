// SPDX-License-Identifier: MIT
// When a loose joint opens by itself.
#include "openings.h"

#include <cmath>
#include <cstdint>
#include <random>

namespace ebbline::network {
namespace {

constexpr double last_s = 300; // no attempt is followed longer
constexpr std::size_t most = 400;

/// Between 0 and 1, neither of them. The standard's own distributions differ between libraries.
double chance(std::mt19937_64& random) {
    constexpr double smallest = 0x1p-53;
    return (static_cast<double>(random() >> 11U) + 0.5) * smallest;
}

} // namespace

std::vector<std::pair<double, bool>> openingsOf(const Joint& joint) {
    std::vector<std::pair<double, bool>> openings;
    if (joint.opens_per_min <= 0)
        return openings;
    std::mt19937_64 random(static_cast<std::uint64_t>(joint.opens_seed));
    double at_s = 0;
    while (openings.size() < 2 * most) {
        at_s += -std::log(chance(random)) * 60 / joint.opens_per_min;
        if (at_s > last_s)
            break;
        openings.emplace_back(at_s, false);
        at_s += joint.opens_ms * 1e-3;
        openings.emplace_back(at_s, true);
    }
    return openings;
}

} // namespace ebbline::network
