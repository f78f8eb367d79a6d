// SPDX-License-Identifier: MIT
// Whole installations drawn by chance as people wire them: every kind of part, faults and events.
#pragma once

#include "ebbline/installation.h"

#include <cstdint>

namespace ebbline::random_wirings {

/// The same for the same seed on every machine. Legal: it can be written to a file and read again.
/// Sensible: a battery feeds a fridge through protection, with sizes, ratings and values that one
/// meets; but it may have faults, also such that the fridge gets nothing.
[[nodiscard]] Installation draw(std::uint64_t seed);

} // namespace ebbline::random_wirings
