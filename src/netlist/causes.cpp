// SPDX-License-Identifier: MIT
// What may move the states of a controller.
#include "causes.h"

namespace ebbline::netlist {

std::vector<Cause>
causesOf(const UnitProbe& probe, const Controller& unit, double nominal_v, bool held_off) {
    const bool on_24_v = nominal_v > 18;
    const double cut_out_v = (on_24_v ? unit.cut_out_24_v : unit.cut_out_v) - (held_off ? 1e3 : 0);
    const double cut_in_v = on_24_v ? unit.cut_in_24_v : unit.cut_in_v;
    const double highest_v = on_24_v ? unit.highest_24_v : unit.highest_v;
    constexpr bool rises = true;
    constexpr bool falls = false;
    constexpr bool above = true;
    constexpr bool below = false;
    constexpr double half = 0.5;
    constexpr double uncalled_v = 2;
    return {{probe.good, rises, probe.sensed_v, above, cut_in_v},
            {probe.good, falls, probe.sensed_v, below, cut_out_v},
            {probe.good, falls, probe.sensed_v, above, highest_v},
            {probe.waiting, rises, probe.good, below, half},
            {probe.waiting, rises, probe.stall, above, half},
            {probe.active, rises, probe.good, above, half},
            {probe.active, falls, probe.good, below, half},
            {probe.active, falls, probe.waiting, above, half},
            {probe.active, falls, probe.calling_v, above, uncalled_v}};
}

} // namespace ebbline::netlist
