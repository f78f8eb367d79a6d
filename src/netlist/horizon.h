// SPDX-License-Identifier: MIT
// How long a run must be, and other facts a circuit needs of the whole installation.
#pragma once

#include "ebbline/netlist.h"

#include <utility>
#include <vector>

namespace ebbline::netlist {

/// Circuit time at which the run may end: the first attempt has had three time constants of
/// pressure build-up since the last event, and `settings.attempts` attempts have fitted in.
[[nodiscard]] double stopTime(const Netlist& netlist);

/// Largest open-circuit voltage of any source, V.
[[nodiscard]] double highestSource(const Installation& installation);

/// Whether an isolator or thermostat is drawn closed.
[[nodiscard]] bool isClosed(const Part& part);

/// When the events open and close a part: circuit time and whether it is closed from then on.
[[nodiscard]] std::vector<std::pair<double, bool>>
closings(const Installation& installation, const std::string& part, double lead_s);

} // namespace ebbline::netlist
