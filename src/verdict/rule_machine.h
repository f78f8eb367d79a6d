// SPDX-License-Identifier: MIT
// What is wrong with the unit itself, so that nobody looks for it in the supply.
#pragma once

#include "rule_facts.h"

namespace ebbline::verdict {

/// Half a sentence on what is wrong with plug, motor or compressor, and what to do about it.
struct MachineFault {
    std::string cause;
    std::string action;
};
/// Against the catalogue entry of the unit's model; nothing where all is as it should be.
[[nodiscard]] std::optional<MachineFault> findMachineFault(const Facts& facts);

/// Why a unit that is supplied and called does not drive.
[[nodiscard]] Headline blameController(const Facts& facts);

/// The first line where the unit itself is why its cut-out acts, or why it does not come to its
/// speed; nothing where it is not.
[[nodiscard]] std::optional<Headline> blameUnit(const Facts& facts);

} // namespace ebbline::verdict
