// SPDX-License-Identifier: MIT
// Numbers of places at which a meter can be held.
#pragma once

#include "plan_scene.h"

namespace ebbline::drawing {

/// A number in a ring for each place of the site, with a line to what it counts.
void drawNumbers(const PlanScene& plan);

} // namespace ebbline::drawing
