// SPDX-License-Identifier: MIT
// What a switch, fuse or breaker of the drawing is like at a moment of the start.
#pragma once

#include "ebbline/drawing.h"

namespace ebbline::drawing {

/// The part as it is then: switches as the events have left them, a fuse that has opened blown.
[[nodiscard]] Part partAt(const Moment& moment, const Part& part);

} // namespace ebbline::drawing
