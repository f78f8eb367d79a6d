// SPDX-License-Identifier: MIT
// A day of cycling second by second, from models/README.md alone.
#pragma once

#include "ebbline/parts.h"

#include <optional>

namespace ebbline::seconds {

/// One battery; on its terminals the loop to the fridge, a load and a charging source.
struct Setup {
    double capacity_ah = 100;
    double charge = 1; ///< 0 to 1
    double age = 0;    ///< 0 to 1
    double ambient_c = 20;
    double loop_ohm = 0; ///< conductors, joints and contacts, out and back
    double fuse_rating_a = 15;
    double holder_ohm = 1.3e-3;
    double element_ohm = 4.7e-3;
    Controller unit;
    double w_per_k = 1;
    double j_per_k = 15000;
    double inside_c = 5;
    double band_k = 4;
    double cop = 1.3; ///< at 25 C
    double load_a = 0;
    double load_from_h = 0; ///< every day
    double load_to_h = 0;
    double charger_v = 14.4;
    double charger_a = 0;
    double charger_ohm = 0.01;
    double charger_from_h = 0; ///< every day
    double charger_to_h = 0;
    double start_limit = 0; ///< below this charge no start succeeds
    double until_h = 24;
    bool to_the_end = false; ///< stops at the first cut-out
};

struct Result {
    double fridge_ah = 0;
    double loads_ah = 0;
    double charged_ah = 0;
    double running_share = 0;
    int starts = 0;
    double charge = 0; ///< at the end
    std::optional<double> cut_out_h;
    std::optional<double> start_fails_h;
    std::optional<double> flat_h;
};

[[nodiscard]] Result step(const Setup& setup);

/// Power at the terminals of a unit that runs steadily at this voltage, watts.
[[nodiscard]] double runningWatts(const Controller& unit, double volts);

} // namespace ebbline::seconds
