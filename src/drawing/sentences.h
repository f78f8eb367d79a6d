// SPDX-License-Identifier: MIT
// What the pictures say in words.
#pragma once

#include "figures.h"

#include <string>
#include <vector>

namespace ebbline::drawing {

/// The verdict with its cause, short enough for a heading.
[[nodiscard]] std::string headline(const Moment& moment);
/// What stands behind it, one sentence each, the most important first.
[[nodiscard]] std::vector<std::string> reasons(const Moment& moment);
/// What to do first; may be empty.
[[nodiscard]] std::string firstAction(const Moment& moment);

/// One remedy with what it does.
struct RemedyLine {
    std::string what;   ///< "1.5 mm² twin, 9.1 m in 2.5 mm²"
    std::string result; ///< "clear, 0.64 V"
    bool starts = false;
};
[[nodiscard]] std::vector<RemedyLine> remedyLines(const Moment& moment);

/// Nominal voltage, battery, temperature: "12 V · battery 80 % charged · 20 °C".
[[nodiscard]] std::string circumstances(const Installation& installation);
/// What happens, in a word or two for a flag: "gave up".
[[nodiscard]] std::string happeningWords(Happening what);
/// What the fridge is doing: "spins up".
[[nodiscard]] std::string activity(const Start& start, double at_s);
/// What it needs and what arrives, at the moment.
[[nodiscard]] std::string balance(const Figures& figures);
/// "loses 1.20 V"; behind a charging source "gains 1.20 V".
[[nodiscard]] std::string lossWords(double value);
/// With a true minus sign.
[[nodiscard]] std::string figure(double value, int decimals);
/// "1.63 s"
[[nodiscard]] std::string seconds(double at_s);
/// "10.47 V"
[[nodiscard]] std::string volts(double value);

} // namespace ebbline::drawing
