// SPDX-License-Identifier: MIT
// Whether what has started also runs as it should.
#pragma once

#include "ebbline/start.h"

namespace ebbline::start {

/// It started, and at the end of the run it turns at less than nine tenths of its speed.
[[nodiscard]] bool isSlow(const Start& start, const Controller& unit);

} // namespace ebbline::start
