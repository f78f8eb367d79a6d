// SPDX-License-Identifier: MIT
// A fitted unit in words and as a catalogue.
#pragma once

#include "ebbline/unit.h"

#include <string>

namespace ebbline::report {

/// Asked beside reached, what was turned, what stays an estimate and how one measures it; plain
/// text, UTF-8.
[[nodiscard]] std::string writeFit(const UnitFit& fit);

/// A catalogue with the unit under that id, for a scene's `use` or a folder of models.
[[nodiscard]] std::string writeUnit(const UnitFit& fit, const std::string& id);

} // namespace ebbline::report
