// SPDX-License-Identifier: MIT
// Times, and the rows of the table that they are printed in.
#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace ebbline::bench {

using Clock = std::chrono::steady_clock;

[[nodiscard]] double secondsSince(Clock::time_point begin);

[[nodiscard]] double timed(const auto& task) {
    const auto begin = Clock::now();
    task();
    return secondsSince(begin);
}

[[nodiscard]] double centile(std::vector<double> values, double share);
[[nodiscard]] double median(const std::vector<double>& values);

void row(const std::string& what,
         const std::string& aim,
         const std::string& measured,
         const std::string& reference);

[[nodiscard]] std::string milliseconds(double seconds);

} // namespace ebbline::bench
