// SPDX-License-Identifier: MIT
// Small circuits of a few cards, solved by the engine with the program's own models.
#pragma once

#include "ebbline/start.h"

#include <string>
#include <utility>
#include <vector>

namespace ebbline::small_circuit {

/// A circuit of a few cards, the models it uses, and the vectors wanted from it.
struct Circuit {
    std::string cards; ///< lines that end with a line feed
    std::vector<std::string> models;
    std::vector<std::string> vectors;
    double stop_s = 1;
    double step_s = 1e-3; ///< largest
    double highest_v = 1000;
    double chgtol = 1e-14;
};
[[nodiscard]] Solved solve(const Circuit& circuit);

/// The last value of a vector.
[[nodiscard]] double last(const Solved& solved, std::size_t vector);
/// Peak of a sampled curve with its time, by the parabola through its highest three samples.
[[nodiscard]] std::pair<double, double> peakOf(const Solved& solved, std::size_t vector);
/// Integral of the square of a vector.
[[nodiscard]] double squareIntegral(const Solved& solved, std::size_t vector);

} // namespace ebbline::small_circuit
