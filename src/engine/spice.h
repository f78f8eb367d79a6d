// SPDX-License-Identifier: MIT
// The simulator library behind one call: a job in, a solution out.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

namespace ebbline::engine {

/// Starts the library: once per process, in a folder that holds its `.spiceinit` and `spinit`.
void startSpice();

/// Loads, runs, copies, forgets. A circuit is loaded anew for every job, so that no result depends
/// on the jobs before it. A run that goes astray is tried again with other pivots.
[[nodiscard]] Solution runSpice(const Job& job);

/// Whether the library asked the process to end; no further job may be given to it then.
[[nodiscard]] bool mustEnd();

} // namespace ebbline::engine
