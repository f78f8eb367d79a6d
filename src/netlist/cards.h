// SPDX-License-Identifier: MIT
// Pieces of circuit text. Only generated names and our own numbers ever get into it.
#pragma once

#include "ebbline/netlist.h"

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace ebbline::netlist {

/// "0" for the reference node, "n7" for the others.
[[nodiscard]] std::string nodeName(int node);

/// " name=value", as it stands behind a subcircuit's name.
[[nodiscard]] std::string parameter(const std::string& name, double value);

/// Every number and flag of a part under the name of its key; `instead` replaces or adds.
[[nodiscard]] std::string keyParameters(const Part& part,
                                        const std::map<std::string, double>& instead);

/// Tolerances of an accuracy.
[[nodiscard]] std::string options(Accuracy accuracy);

/// Whether the torque of the compressor is its mean over a turn all the time.
[[nodiscard]] bool hasMeanTorque(Accuracy accuracy);

/// The analysis line: from power-on to `stop_s`, initial conditions as the models state them.
[[nodiscard]] std::string transient(Accuracy accuracy, double stop_s);

/// More points than a run has in which joints open so many times, unless it goes on in needlessly
/// small steps.
[[nodiscard]] std::uint64_t usualPoints(Accuracy accuracy, double stop_s, std::size_t openings);

/// A source that is 1 while closed and 0 while open: `closed` at first, then as the steps say at
/// their circuit times, each within 1 ms.
[[nodiscard]] std::string
stepSource(const std::string& node, bool closed, const std::vector<std::pair<double, bool>>& steps);

} // namespace ebbline::netlist
