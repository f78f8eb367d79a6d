// SPDX-License-Identifier: MIT
// A printed sum worked out from its text, as far as its printed digits go.
#pragma once

#include <string>

namespace ebbline {

/// What a printed number may have been before it was rounded.
struct Interval {
    double low = 0;
    double high = 0;
    /// With so much more on either side.
    [[nodiscard]] bool holds(double value, double margin = 0) const {
        return low - margin <= value && value <= high + margin;
    }
};
[[nodiscard]] Interval operator+(const Interval& one, const Interval& other);
[[nodiscard]] Interval operator*(const Interval& one, const Interval& other);

/// "9.1 m x 7.98 mohm/m x 9.40 A = 0.68 V, and 0.020 V while the current changes", worked out.
struct PaperSum {
    bool no_current = false; ///< the text says that and nothing else
    Interval product;        ///< of the factors, V
    Interval result;         ///< what is printed behind the equals sign, V
    Interval changing;       ///< what is said to come on top, V

    [[nodiscard]] Interval whole() const { return product + changing; }
    /// Half of the last printed digit of the result, V.
    [[nodiscard]] double rounding() const { return (result.high - result.low) / 2; }
};

/// Throws std::runtime_error for a text of another form.
[[nodiscard]] PaperSum readPaperSum(const std::string& text);

} // namespace ebbline
