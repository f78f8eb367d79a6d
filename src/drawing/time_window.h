// SPDX-License-Identifier: MIT
// Which stretch of time a chart shows.
#pragma once

#include "ebbline/start.h"

namespace ebbline::drawing {

struct TimeWindow {
    double from_s = 0;
    double to_s = 1;
};

/// The attempt that the moment belongs to, from the call to a little after what matters in it; with
/// the held-off twin's lowest where the attempt is the first one.
[[nodiscard]] TimeWindow findWindow(const Start& start, const Start* held_off, double at_s);

} // namespace ebbline::drawing
