// SPDX-License-Identifier: MIT
// Stock ngspice on a circuit text, and its binary raw file.
#pragma once

#include <string>
#include <vector>

namespace ebbline {

struct RawFile {
    std::vector<std::string> names;          ///< "time", "v(n3)", "i(l.xb0.lw)"
    std::vector<std::vector<double>> values; ///< one vector per name

    /// The values of a vector by the name a job uses for it: "l.xb0.lw#branch" is i(l.xb0.lw).
    [[nodiscard]] const std::vector<double>& of(const std::string& vector) const;
};

/// Runs `ngspice -n -b -r` on the text; throws std::runtime_error when it leaves no raw file.
[[nodiscard]] RawFile runStock(const std::string& circuit);

} // namespace ebbline
