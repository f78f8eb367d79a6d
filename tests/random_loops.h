// SPDX-License-Identifier: MIT
// Supply loops drawn by chance: as installation for the program, as numbers for the integrator.
#pragma once

#include "ode_model.h"

#include "ebbline/installation.h"

#include <cstdint>
#include <string>

namespace ebbline::random_loops {

/// What such loops mostly do: a fair cable starts, a thin one gives up, a weak motor stalls.
enum class Kind { Fair, Thin, Weak };
[[nodiscard]] std::string nameOf(Kind kind);

/// One installation twice. The resistance and the inductance of the integrator's loop are added up
/// from the tables and formulas that models/README.md names, not by the program.
struct Pair {
    Installation drawn;
    ode::Setup setup;
};
/// The same for the same seed on every machine.
[[nodiscard]] Pair draw(Kind kind, std::uint64_t seed);

} // namespace ebbline::random_loops
