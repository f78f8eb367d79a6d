// SPDX-License-Identifier: MIT
// The supply loop as places that a meter's two leads can be held across, one after the other.
#pragma once

#include "ebbline/network.h"

#include <string>
#include <vector>

namespace ebbline {

enum class PlaceKind {
    Battery,   ///< inside it
    Conductor, ///< of a cable or lead, without the joints at its ends
    Device,    ///< a fuse, switch, plug ... with the joints at it
    Joint,     ///< joints alone: at a pole of battery or fridge, on a bar
};

/// From one conductor to the next, or along one.
struct MeterPlace {
    PlaceKind kind = PlaceKind::Conductor;
    bool on_plus_side = true;
    std::string owner;       ///< id of the run or part
    Terminal terminal;       ///< of a joint: where it is
    std::vector<Step> steps; ///< in the sense of the loop
};

namespace network {

/// Battery, then battery plus to fridge plus, then fridge minus to battery minus. Together they
/// are the whole loop; none without one.
[[nodiscard]] std::vector<MeterPlace> findPlaces(const Network& network);

} // namespace network
} // namespace ebbline
