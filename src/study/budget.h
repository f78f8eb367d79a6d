// SPDX-License-Identifier: MIT
// The loop budget: how much resistance the supply loop may have.
#pragma once

#include "ebbline/study.h"

namespace ebbline::study {

/// Greatest resistance of the supply loop at which the first attempt starts, to 0.5 mohm or a
/// thousandth of it: draft runs find the neighbourhood and how the headroom falls there, final runs
/// decide. `spare_now_v` is the headroom of the loop as drawn, where it starts. Absent when it
/// starts at no resistance.
[[nodiscard]] std::optional<double> findLoopLimit(Engine& engine,
                                                  const Network& network,
                                                  const Models& models,
                                                  std::optional<double> spare_now_v);

/// The same of a start that was run, where resistance can be what keeps it from starting.
void addLoopLimit(Engine& engine,
                  const Models& models,
                  Examination& examination,
                  const Progress& progress);

} // namespace ebbline::study
