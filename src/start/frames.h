// SPDX-License-Identifier: MIT
// The whole network at a few hundred instants of a run.
#pragma once

#include "events.h"

#include <vector>

namespace ebbline::start {

/// Frames from just before the scene's time 0 to the end, the lowest moment among them.
[[nodiscard]] std::vector<Frame> readFrames(const Record& record, const Start& start);

} // namespace ebbline::start
