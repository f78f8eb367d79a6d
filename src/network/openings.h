// SPDX-License-Identifier: MIT
// When a loose joint opens by itself.
#pragma once

#include "ebbline/parts.h"

#include <utility>
#include <vector>

namespace ebbline::network {

/// Scene times at which it opens and closes again, sorted: the waits between are exponential
/// with the mean that the joint states, drawn from its seed. The first minutes of a scene, no more.
[[nodiscard]] std::vector<std::pair<double, bool>> openingsOf(const Joint& joint);

} // namespace ebbline::network
