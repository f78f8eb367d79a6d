// SPDX-License-Identifier: MIT
// How long a run must be, and other facts a circuit needs of the whole installation.
#pragma once

#include "ebbline/netlist.h"

namespace ebbline::netlist {

/// Circuit time at which the run may end: the first attempt has had three time constants of
/// pressure build-up since the last event, and `settings.attempts` attempts have fitted in.
[[nodiscard]] double stopTime(const Netlist& netlist);

/// Largest open-circuit voltage of any source, V.
[[nodiscard]] double highestSource(const Installation& installation);

} // namespace ebbline::netlist
