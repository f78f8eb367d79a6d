// SPDX-License-Identifier: MIT
// The list of files that can be opened.
#pragma once

#include "ebbline/canvas.h"
#include "ebbline/desk.h"

namespace ebbline::desk {

/// As many rows as there is room for, around the chosen one; every row can be clicked.
void drawFiles(
    drawing::Canvas& canvas, Sheet& sheet, const Desk& desk, const Box& box, double unit);

} // namespace ebbline::desk
