// SPDX-License-Identifier: MIT
// What a class sees before it is told.
#pragma once

#include "ebbline/desk.h"

namespace ebbline::desk {

/// The installation as an eye sees it, below a question and what has been revealed of the answer.
[[nodiscard]] Drawing
drawClass(const Desk& desk, const Moment& moment, const View& view, double unit);

/// Everything of a drawing lower by so many pixels.
void lower(Drawing& drawing, double by);

} // namespace ebbline::desk
