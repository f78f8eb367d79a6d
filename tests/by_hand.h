// SPDX-License-Identifier: MIT
// A remedy carried out on the drawing as its words say; shares no code with the search for it.
#pragma once

#include "ebbline/remedies.h"

namespace ebbline {

/// The installation with the remedy's step of that value. Throws std::logic_error for a kind that
/// no scene asks for.
[[nodiscard]] Installation
carryOut(const Remedy& remedy, double value, const Installation& installation);

/// The value of the step below, where the trade has one between the drawing and that value: the
/// next thinner cable, the next smaller fuse, ten per cent less charge. Nothing for what has no
/// such steps.
[[nodiscard]] std::optional<double>
findStepBelow(const Remedy& remedy, double value, const Installation& installation);

} // namespace ebbline
