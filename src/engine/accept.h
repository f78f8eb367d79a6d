// SPDX-License-Identifier: MIT
// What is let into the simulator, and what counts as solved when it comes out.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

#include <string>

namespace ebbline::engine {

/// Why a circuit text is not run at all: a card that is no part of a plain circuit, such as one
/// that runs commands or reads files. Empty when it may run.
[[nodiscard]] std::string whyRefused(const std::string& circuit);

/// Why vectors are no solution: missing, not to the end, time not rising, a value not finite, a
/// potential beyond twice the highest source. Empty when they are one.
[[nodiscard]] std::string whyNotSolved(const Job& job, const Solved& solved);

} // namespace ebbline::engine
