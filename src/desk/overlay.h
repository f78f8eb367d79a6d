// SPDX-License-Identifier: MIT
// What is laid over the pictures without covering them: the stretch that is played round, the leads
// of a meter.
#pragma once

#include "ebbline/desk.h"

namespace ebbline::desk {

/// A bar along the time chart below its scale.
void drawLoop(Sheet& sheet, const Desk& desk, double unit);

/// Height of the line in which the meter's readings stand; 0 without one.
[[nodiscard]] double meterHeight(const Desk& desk, double unit);
/// Terminals, leads and readings.
void drawMeter(Sheet& sheet, const Desk& desk, double unit);

} // namespace ebbline::desk
