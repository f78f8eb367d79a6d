// SPDX-License-Identifier: MIT
// What is let into the simulator, and what counts as solved when it comes out.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

#include <array>
#include <optional>
#include <string>

namespace ebbline::engine {

/// Why a circuit text is not run at all: a card that is no part of a plain circuit, such as one
/// that runs commands or reads files. Empty when it may run.
[[nodiscard]] std::string whyRefused(const std::string& circuit);

/// Why vectors are no solution: missing, not to the end, time not rising, a value not finite, a
/// potential beyond twice the highest source. Empty when they are one.
[[nodiscard]] std::string whyNotSolved(const Job& job, const Solved& solved);

/// Whether the run began, and gave up on the way or came to values that cannot be.
[[nodiscard]] bool wentAstray(const Job& job, const Solved& solved);

/// The order of elimination is chosen once, at the first instant. Where it loses its digits after
/// an event, the run ends in a time step too small, comes to hundreds of volts or goes on in steps
/// of microseconds; in another order the same circuit is solved. What really runs away does so in
/// all.
inline constexpr std::array other_pivots{"0.5", "0.001"};

/// The same circuit with another least size of pivots, by which the simulator chooses another order
/// of elimination; nothing for a circuit that states none.
[[nodiscard]] std::optional<std::string> withPivots(const std::string& circuit,
                                                    const std::string& pivots);

} // namespace ebbline::engine
