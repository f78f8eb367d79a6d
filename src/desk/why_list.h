// SPDX-License-Identifier: MIT
// All whys on one card.
#pragma once

#include "ebbline/canvas.h"

namespace ebbline::desk {

/// In three columns, in type as large as there is room for.
void drawWhys(drawing::Canvas& canvas, const Box& box, double unit);

} // namespace ebbline::desk
