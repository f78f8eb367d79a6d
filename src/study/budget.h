// SPDX-License-Identifier: MIT
// The loop budget: how much resistance the supply loop may have.
#pragma once

#include "ebbline/study.h"

namespace ebbline::study {

/// Greatest resistance of the supply loop at which the first attempt starts, to 0.5 mohm: draft
/// runs find the neighbourhood and how the headroom falls there, final runs decide. `starts_now`
/// says on which side the loop as drawn lies. Absent when it starts at no resistance.
[[nodiscard]] std::optional<double>
findLoopLimit(Engine& engine, const Network& network, const Models& models, bool starts_now);

} // namespace ebbline::study
