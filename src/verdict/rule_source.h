// SPDX-License-Identifier: MIT
// What batteries and chargers feed into a short circuit.
#pragma once

#include "rule_facts.h"

#include <optional>
#include <string>

namespace ebbline::verdict {

/// A source of a short circuit.
struct Source {
    double volts = 0;
    double ohm = 0;
    double extra_a = 0; ///< from chargers
    std::string text;   ///< where its resistance comes from
    bool unchecked = false;
};

/// All batteries and chargers on the fridge's plus, full, new and warm, as if they lay together.
/// Nothing where a table lacks one of them. The network has a loop.
[[nodiscard]] std::optional<Source> findStrongestSource(const Facts& facts);
/// The feeding battery alone, a quarter charged and tired.
[[nodiscard]] std::optional<Source> findWeakestSource(const Facts& facts);
/// What is missing where there is no source, as a sentence.
[[nodiscard]] std::string whyNoSource(const Facts& facts);

/// How the standard of a fuse's style bounds it; nothing when no table of it is loaded.
[[nodiscard]] const FuseKind* findFuseKind(const Facts& facts, int fuse);

} // namespace ebbline::verdict
