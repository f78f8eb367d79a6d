// SPDX-License-Identifier: MIT
// Parts on a bench: a source and consumers without anything between them.
#pragma once

#include "ebbline/study.h"

#include <vector>

namespace ebbline::study {

/// Two nodes, no cable. Nominal voltage, surroundings and judged controller are those of `about`.
[[nodiscard]] Network
bench(const Installation& about, Part source, ElementKind kind, std::vector<Part> consumers);

/// A source that does not give way: 500 A behind 1 mohm.
[[nodiscard]] Part stiffSupply(double volts);

/// Pressures that build up and bleed in proportion faster settle at the same values.
[[nodiscard]] Controller hastened(Controller unit);

/// The unit alone, until it runs at steady speed and pressures. It starts wherever it can: its
/// cut-out is held off, its cut-in set aside.
[[nodiscard]] Netlist
steadyRun(const Installation& about, const Models& models, Part unit, double volts);

} // namespace ebbline::study
