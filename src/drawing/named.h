// SPDX-License-Identifier: MIT
// Sentences of the verdict, which speak of ids, as people read them.
#pragma once

#include "ebbline/drawing.h"

#include <string>

namespace ebbline::drawing {

/// As a sentence begins.
[[nodiscard]] std::string capital(std::string text);
/// A sentence of the verdict with names instead of ids and units as people write them.
[[nodiscard]] std::string withNames(const Moment& moment, const std::string& sentence);

} // namespace ebbline::drawing
