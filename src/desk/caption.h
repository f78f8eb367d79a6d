// SPDX-License-Identifier: MIT
// What a lesson says, above the pictures.
#pragma once

#include "ebbline/desk.h"

namespace ebbline::desk {

/// Height of the caption for a sheet of that width, pixels; 0 without a lesson.
[[nodiscard]] double captionHeight(const Desk& desk, double width, double unit);

/// Writes it across the top of a drawing.
void drawCaption(Drawing& drawing, const Desk& desk, double unit);

} // namespace ebbline::desk
