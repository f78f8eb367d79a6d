// SPDX-License-Identifier: MIT
// Follows box, switches and batteries from one event to the next.
#pragma once

#include "steady.h"

namespace ebbline::study {

/// How far, and what is known of starts.
struct DayPlan {
    BoxLoad box;
    double until_h = 24;
    bool to_the_end = false; ///< stops at the first cut-out, flat battery or start that fails
    std::vector<StartLimit> limits;
};

/// Events of the scene repeat every day; what they switched stays so until they switch it back.
[[nodiscard]] Day
follow(const Network& network, const Characteristics& characteristics, const DayPlan& plan);

/// Index among the batteries of the one that feeds the fridge.
[[nodiscard]] std::size_t feedingBattery(const Network& network);

} // namespace ebbline::study
