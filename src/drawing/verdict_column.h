// SPDX-License-Identifier: MIT
// The written side of a page: reasons, where it is lost, what would make it start.
#pragma once

#include "pictures.h"

namespace ebbline::drawing {

/// Fills the box from its top; what finds no room is left out, the least important first. Returns
/// where it ends.
double drawVerdictColumn(const Site& site);

} // namespace ebbline::drawing
