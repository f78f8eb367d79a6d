// SPDX-License-Identifier: MIT
// The bare plan with a number at every place where a meter can be held.
#pragma once

#include "ebbline/drawing.h"
#include "ebbline/places.h"

#include <span>

namespace ebbline::drawing {

/// Only what an eye sees; numbers from 1 on, in the order of `places`. Neither ids nor texts of the
/// scene are in it.
[[nodiscard]] Drawing
numberedPlan(const Network& network, std::span<const MeterPlace> places, const View& view);

} // namespace ebbline::drawing
