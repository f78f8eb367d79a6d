// SPDX-License-Identifier: MIT
// Questions to the graph: islands, and the way from the battery to the controller and back.
#pragma once

#include "ebbline/network.h"

namespace ebbline::network {

/// Island of each node; nodes joined by any element share one.
[[nodiscard]] std::vector<int> findIslands(const Network& network);

/// The way of least resistance from a battery to the judged controller and back through passive
/// elements; where a controller is fed the wrong way round, from minus to plus.
[[nodiscard]] std::optional<SupplyLoop> findSupplyLoop(const Network& network);

} // namespace ebbline::network
