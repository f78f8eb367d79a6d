// SPDX-License-Identifier: MIT
// Below the plan: the ruler and how to read a cable.
#pragma once

#include "plan_scene.h"

namespace ebbline::drawing {

void drawFoot(const PlanScene& plan);

} // namespace ebbline::drawing
