// SPDX-License-Identifier: MIT
// What lies under the pointer, and what it does at the moment.
#pragma once

#include "ebbline/desk.h"

namespace ebbline::desk {

/// A card beside the pointer: of a part, run or joint its name, volts, amperes and ohms now; of a
/// text the whys of its words. Nothing where the pointer lies on neither.
void drawHover(Sheet& sheet, const Desk& desk, double unit);

/// Id of the part, run or joint drawn at a place, the nearest within `reach` pixels; empty without.
[[nodiscard]] std::string findThing(const Drawing& drawing, Point at, double reach);

} // namespace ebbline::desk
