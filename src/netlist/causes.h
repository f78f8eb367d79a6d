// SPDX-License-Identifier: MIT
// What may move the states of a controller.
#pragma once

#include "ebbline/netlist.h"

namespace ebbline::netlist {

/// Of the judged controller on a supply of so many volts: the same conditions as in its circuit.
[[nodiscard]] std::vector<Cause>
causesOf(const UnitProbe& probe, const Controller& unit, double nominal_v, bool held_off);

} // namespace ebbline::netlist
