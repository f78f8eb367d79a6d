// SPDX-License-Identifier: MIT
// The installation as an eye sees it.
#pragma once

#include "ebbline/installation.h"

namespace ebbline::installation {

/// What no eye sees is as it is in a sound one: joints, contacts, strands and fuses are good, and
/// nothing has a name or a note that somebody gave it. What was drawn and how switches stand stays.
[[nodiscard]] Installation asSeen(Installation installation);

} // namespace ebbline::installation
