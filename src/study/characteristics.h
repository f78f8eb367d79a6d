// SPDX-License-Identifier: MIT
// Steady points of unit and batteries, each from a short run of the circuit models alone.
#pragma once

#include "ebbline/hours.h"

namespace ebbline::study {

/// Judged controller on a stiff supply at nine voltages; every battery at 21 states of charge.
/// Throws EngineError when a run was not solved.
[[nodiscard]] Characteristics
characterize(Engine& engine, const Network& network, const Models& models);

/// On the straight line between two points; beyond the outermost the outermost.
[[nodiscard]] UnitPoint unitAt(const std::vector<UnitPoint>& points, double volts);
[[nodiscard]] BatteryPoint batteryAt(const std::vector<BatteryPoint>& points, double charge);

/// Element indices of the batteries, in order.
[[nodiscard]] std::vector<std::size_t> batteriesOf(const Network& network);
/// Cut-out and cut-in of the judged controller at this supply.
struct Thresholds {
    double cut_out_v = 0;
    double cut_in_v = 0;
    double highest_v = 0;
};
[[nodiscard]] Thresholds thresholdsOf(const Network& network);
[[nodiscard]] const Controller& unitOf(const Network& network);

} // namespace ebbline::study
