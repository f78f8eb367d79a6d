// SPDX-License-Identifier: MIT
// Where the energy of one run went: battery, wiring, unit and compressor, by their own laws.
#pragma once

#include "runs.h"

#include <map>
#include <string>

namespace ebbline::energy {

/// J, from the arrival of the power to the end of the run.
struct Account {
    double in = 0;                        ///< from the battery's open-circuit voltage
    std::map<std::string, double> heat;   ///< by what it heats, clamps and brakes included
    double shaft = 0;                     ///< work against the gas
    std::map<std::string, double> stored; ///< more at the end than at the beginning

    [[nodiscard]] double heats() const;
    [[nodiscard]] double stores() const;
    /// What is missing, or too much.
    [[nodiscard]] double error() const { return in - heats() - shaft - stores(); }
};

/// Asks for the inner quantities of the unit that the account needs; to be called before the run.
void want(Netlist& netlist);

/// For a battery of 12 V, linear elements, fuses and the unit alone. Products are summed as means
/// over each step, which the trapezoidal rule keeps for what is stored.
[[nodiscard]] Account read(const runs::Run& run);

} // namespace ebbline::energy
