// SPDX-License-Identifier: MIT
// The foot of the sheet: what plays, and what can be turned.
#pragma once

#include "ebbline/desk.h"

namespace ebbline::desk {

/// Height of the foot, in sizes of common text.
inline constexpr double foot_units = 6.4;

/// Appends the foot to a sheet: transport at its left, a card for every handle.
void drawFoot(Sheet& sheet, const Desk& desk, double unit);

} // namespace ebbline::desk
