// SPDX-License-Identifier: MIT
// The same start as ordinary differential equations, from models/README.md alone.
#pragma once

#include "ebbline/installation.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline::ode {

/// A supply loop of one battery, series resistance and inductance, one fuse, one controller.
struct Setup {
    double capacity_ah = 100;
    double charge = 1; ///< 0 to 1
    double temperature_c = 20;
    double loop_ohm = 0; ///< conductors, joints and contacts, out and back
    double loop_henry = 0;
    double fuse_rating_a = 15;
    double holder_ohm = 2e-3;
    double element_ohm = 4.7e-3;
    double power_s = -1; ///< scene time at which the power arrives
    double call_s = 0;   ///< scene time at which the thermostat closes
    double end_s = 63;
    bool held_off = false;
    Controller unit;
};

struct Happening {
    double at_s = 0;
    std::string what; ///< "positions", "spins up", "full speed", "gave up", "tries again"
};

/// The filtered voltage where it was lower than ever before in the attempt.
struct Low {
    double at_s = 0;
    double volts = 0;
};

struct Result {
    std::string outcome;        ///< "starts", "trips", "stalls", "supply-low"; "none": not called
    double lowest_v = 0;        ///< first attempt
    double sensed_lowest_v = 0; ///< first attempt, filtered
    std::vector<Low> envelope;  ///< first attempt, falling
    std::vector<Happening> events;
};

/// When something of that name happened first; nothing where it did not.
[[nodiscard]] std::optional<double> firstTime(const Result& result, const std::string& what);

/// Integrates with Boost.Odeint (Dormand-Prince 5, controlled), events by bisection.
[[nodiscard]] Result solve(const Setup& setup);

} // namespace ebbline::ode
