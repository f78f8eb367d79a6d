// SPDX-License-Identifier: MIT
// What is let into the simulator, and what counts as solved when it comes out.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

#include <array>
#include <string>
#include <vector>

namespace ebbline::engine {

/// Why a circuit text is not run at all: a card that is no part of a plain circuit, such as one
/// that runs commands or reads files. Empty when it may run.
[[nodiscard]] std::string whyRefused(const std::string& circuit);

/// Why vectors are no solution: missing, not to the end, time not rising, a value not finite, a
/// potential beyond twice the highest source, something that moves without a cause. Empty when they
/// are one.
[[nodiscard]] std::string whyNotSolved(const Job& job, const Solved& solved);

/// Whether the run began, and gave up on the way or came to values that cannot be.
[[nodiscard]] bool wentAstray(const Job& job, const Solved& solved);

/// The order of elimination is chosen once, at the first instant. Where it loses its digits after
/// an event, the run ends in a time step too small, comes to hundreds of volts or goes on in steps
/// of microseconds; in another order the same circuit is solved.
inline constexpr std::array other_pivots{0.5, 0.001};

/// Where Newton's iteration runs away at one instant, or an event is lost in a step that is taken
/// back, the same circuit followed a little more closely comes by at other instants. What really
/// runs away does so in all.
inline constexpr std::array closer_by{0.9, 0.8, 0.7};

/// The same circuit in the other orders of elimination; none where it does not state `pivrel`.
[[nodiscard]] std::vector<std::string> otherOrders(const std::string& circuit);

/// The same circuit followed more closely by so much; none where it does not state `reltol`.
[[nodiscard]] std::vector<std::string> closerOnes(const std::string& circuit);

} // namespace ebbline::engine
