// SPDX-License-Identifier: MIT
// What lies over the pictures: the help sheet, the list of files.
#pragma once

#include "ebbline/desk.h"

#include <cstddef>

namespace ebbline::desk {

/// A card in the middle of the sheet.
void drawCover(Sheet& sheet, const Desk& desk, double unit);

/// What lies under a box that is painted next: a text that it would cut through says something
/// else, so it goes.
void clearUnder(Drawing& drawing, const Box& box);
/// How many texts a box would cut through.
[[nodiscard]] std::size_t countCuts(const Drawing& drawing, const Box& box);

} // namespace ebbline::desk
