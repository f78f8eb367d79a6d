// SPDX-License-Identifier: MIT
// Times, and the rows of the table that they are printed in.
#include "rows.h"

#include "ebbline/text.h"

#include <algorithm>
#include <cmath>
#include <iostream>

namespace ebbline::bench {

double secondsSince(Clock::time_point begin) {
    return std::chrono::duration<double>(Clock::now() - begin).count();
}

double centile(std::vector<double> values, double share) {
    std::ranges::sort(values);
    const auto last = static_cast<double>(values.size() - 1);
    return values[static_cast<std::size_t>(std::lround(share * last))];
}

double median(const std::vector<double>& values) {
    return centile(values, 0.5);
}

void row(const std::string& what,
         const std::string& aim,
         const std::string& measured,
         const std::string& reference) {
    std::cout << "| " << what << " | " << aim << " | " << measured << " | " << reference << " |"
              << std::endl;
}

std::string milliseconds(double seconds) {
    return text::fixed(seconds * 1e3, seconds < 0.01 ? 2 : 0) + " ms";
}

} // namespace ebbline::bench
