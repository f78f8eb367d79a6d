// SPDX-License-Identifier: MIT
// What lies over the pictures: the help sheet, the list of files.
#pragma once

#include "ebbline/desk.h"

namespace ebbline::desk {

/// A card in the middle of the sheet.
void drawCover(Sheet& sheet, const Desk& desk, double unit);

} // namespace ebbline::desk
