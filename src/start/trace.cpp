// SPDX-License-Identifier: MIT
// Arithmetic on sampled quantities with uneven steps.
#include "trace.h"

#include <algorithm>
#include <vector>

namespace ebbline::start {
namespace {

/// Integral of the values from the first sample to each sample.
std::vector<double> integrals(std::span<const double> time_s, std::span<const double> values) {
    std::vector<double> sums(time_s.size(), 0.0);
    for (std::size_t i = 1; i < time_s.size(); ++i)
        sums[i] = sums[i - 1] + (time_s[i] - time_s[i - 1]) * (values[i] + values[i - 1]) / 2;
    return sums;
}

/// Integral from the first sample to `at_s`, which lies between samples `i - 1` and `i`.
double integralUpTo(std::span<const double> time_s,
                    std::span<const double> values,
                    std::span<const double> sums,
                    double at_s) {
    const auto place = std::ranges::upper_bound(time_s, at_s);
    if (place == time_s.begin())
        return 0;
    const auto before = static_cast<std::size_t>(place - time_s.begin()) - 1;
    const double here = valueAt(time_s, values, at_s);
    return sums[before] + (at_s - time_s[before]) * (values[before] + here) / 2;
}

} // namespace

std::optional<double> findCrossing(std::span<const double> time_s,
                                   std::span<const double> values,
                                   double level,
                                   bool rising,
                                   double from_s,
                                   double to_s) {
    const Range range = samplesIn(time_s, from_s, to_s);
    for (std::size_t i = std::max<std::size_t>(range.first, 1); i < range.last; ++i) {
        const double before = rising ? values[i - 1] - level : level - values[i - 1];
        const double after = rising ? values[i] - level : level - values[i];
        if (before >= 0 || after < 0)
            continue;
        const double at_s = time_s[i - 1] + (time_s[i] - time_s[i - 1]) * before / (before - after);
        if (at_s >= from_s)
            return at_s;
    }
    return std::nullopt;
}

double valueAt(std::span<const double> time_s, std::span<const double> values, double at_s) {
    const auto place = std::ranges::lower_bound(time_s, at_s);
    if (place == time_s.begin())
        return values.front();
    if (place == time_s.end())
        return values.back();
    const auto i = static_cast<std::size_t>(place - time_s.begin());
    const double share = (at_s - time_s[i - 1]) / (time_s[i] - time_s[i - 1]);
    return values[i - 1] + share * (values[i] - values[i - 1]);
}

double meanOver(std::span<const double> time_s,
                std::span<const double> values,
                double from_s,
                double to_s) {
    const std::vector<double> sums = integrals(time_s, values);
    return (integralUpTo(time_s, values, sums, to_s) - integralUpTo(time_s, values, sums, from_s)) /
           (to_s - from_s);
}

std::optional<double> largestMean(std::span<const double> time_s,
                                  std::span<const double> values,
                                  double window_s,
                                  double from_s,
                                  double to_s) {
    const std::vector<double> sums = integrals(time_s, values);
    const Range range = samplesIn(time_s, from_s + window_s, to_s);
    std::optional<double> largest;
    for (std::size_t i = range.first; i < range.last; ++i) {
        const double mean =
            (sums[i] - integralUpTo(time_s, values, sums, time_s[i] - window_s)) / window_s;
        if (!largest || mean > *largest)
            largest = mean;
    }
    return largest;
}

Range samplesIn(std::span<const double> time_s, double from_s, double to_s) {
    const auto index = [&](auto place) { return static_cast<std::size_t>(place - time_s.begin()); };
    return {index(std::ranges::lower_bound(time_s, from_s)),
            index(std::ranges::upper_bound(time_s, to_s))};
}

} // namespace ebbline::start
