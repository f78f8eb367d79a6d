// SPDX-License-Identifier: MIT
// A straight scale from a quantity to pixels, with round ticks.
#pragma once

#include <cmath>
#include <vector>

namespace ebbline::drawing {

struct Scale {
    double low = 0;  ///< quantity at `from`
    double high = 1; ///< quantity at `to`
    double from = 0; ///< pixels
    double to = 1;

    [[nodiscard]] double at(double value) const {
        return from + (value - low) / (high - low) * (to - from);
    }
    /// The same, kept between `from` and `to`.
    [[nodiscard]] double within(double value) const {
        return at(std::fmin(std::fmax(value, low), high));
    }

    /// The step of 1, 2 or 5 times a power of ten that puts ticks at least `apart` pixels apart.
    [[nodiscard]] double tickStep(double apart) const {
        const double least = apart * (high - low) / std::fabs(to - from);
        const double power = std::pow(10, std::floor(std::log10(least)));
        for (const double factor : {1.0, 2.0, 5.0})
            if (factor * power >= least)
                return factor * power;
        return 10 * power;
    }
    [[nodiscard]] std::vector<double> ticks(double apart) const {
        std::vector<double> all;
        const double step = tickStep(apart);
        for (double k = std::ceil(low / step - 1e-9); k * step <= high + 1e-9 * step; ++k)
            all.push_back(k == 0 ? 0.0 : k * step);
        return all;
    }
};

} // namespace ebbline::drawing
