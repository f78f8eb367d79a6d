// SPDX-License-Identifier: MIT
// A meter's two leads on two terminals of a start that was simulated: what it would show.
#pragma once

#include "ebbline/drawing.h"

#include <optional>
#include <string>

namespace ebbline {

/// Where the two leads are.
struct Leads {
    Terminal plus;
    Terminal minus;
    bool holds_minus = false; ///< the minus lead is in hand: the next terminal is for it
    bool operator==(const Leads&) const = default;

    [[nodiscard]] Terminal& inHand() { return holds_minus ? minus : plus; }
};

/// The least and the greatest that a meter showed, V.
struct LeadExtremes {
    double lowest_v = 0;
    double highest_v = 0;
};

namespace desk {

/// Both on the supply of the judged fridge.
[[nodiscard]] Leads leadsAtFridge(const Installation& installation);

/// Volts of the plus lead against the minus lead; nothing where no wiring joins them, or where a
/// terminal has none.
[[nodiscard]] std::optional<double>
readingOf(const Network& network, const Frame& frame, const Leads& leads);

/// What the meter shows over the whole run; nothing where it has no reading.
[[nodiscard]] std::optional<MeterTrace> traceOf(const Examination& examination, const Leads& leads);

/// Within the try that a moment belongs to; over everything where there was none.
[[nodiscard]] LeadExtremes extremesOf(const Start& start, const MeterTrace& trace, double at_s);

/// What the two leads hang on: "meter: Fridge plus against Fridge minus".
[[nodiscard]] std::string nameOf(const Installation& installation, const Leads& leads);

} // namespace desk
} // namespace ebbline
