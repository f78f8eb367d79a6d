// SPDX-License-Identifier: MIT
// Layouts of plans drawn lately: from moment to moment of a start nothing moves.
#pragma once

#include "plan_layout.h"

namespace ebbline::drawing {

/// What layOutPlan gives, taken from memory where the same was laid out before in this thread.
[[nodiscard]] PlanLayout recallLayout(const Network& network, const Box& area, double unit);

} // namespace ebbline::drawing
