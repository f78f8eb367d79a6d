// SPDX-License-Identifier: MIT
// Arithmetic on sampled quantities with uneven steps; straight lines between samples.
#pragma once

#include <optional>
#include <span>

namespace ebbline::start {

/// First time in [from_s, to_s] at which `values` goes through `level` in the stated direction.
[[nodiscard]] std::optional<double> findCrossing(std::span<const double> time_s,
                                                 std::span<const double> values,
                                                 double level,
                                                 bool rising,
                                                 double from_s,
                                                 double to_s);

/// Value at `at_s`, held constant beyond both ends.
[[nodiscard]] double
valueAt(std::span<const double> time_s, std::span<const double> values, double at_s);

/// Mean over [from_s, to_s].
[[nodiscard]] double meanOver(std::span<const double> time_s,
                              std::span<const double> values,
                              double from_s,
                              double to_s);

/// Largest mean over any window of `window_s` that ends at a sample in [from_s + window_s, to_s];
/// nothing when no window fits.
[[nodiscard]] std::optional<double> largestMean(std::span<const double> time_s,
                                                std::span<const double> values,
                                                double window_s,
                                                double from_s,
                                                double to_s);

/// Indices [first, last) of the samples in [from_s, to_s].
struct Range {
    std::size_t first = 0;
    std::size_t last = 0;
};
[[nodiscard]] Range samplesIn(std::span<const double> time_s, double from_s, double to_s);

} // namespace ebbline::start
