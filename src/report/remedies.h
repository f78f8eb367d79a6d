// SPDX-License-Identifier: MIT
// Remedies in words: what cures, and what does not suffice by itself.
#pragma once

#include "ebbline/remedies.h"

#include <string>

namespace ebbline::report {

/// "twin in 2.5 mm²: starts clear, 0.67 V to spare".
[[nodiscard]] std::string remedyWords(const Remedy& remedy);

} // namespace ebbline::report
