// SPDX-License-Identifier: MIT
// The graph as circuit text, with the map from its vectors back to the elements.
#pragma once

#include "ebbline/models.h"
#include "ebbline/network.h"

#include <string>
#include <vector>

namespace ebbline {

/// Final: aims at 1 mV of the held-off lowest and 1 ms of events, which the scenes keep; where the
/// rotor barely turns over, full speed was found 14 ms late. All that is printed uses it. Draft:
/// within 20 mV, mean torque instead of crank ripple. Smooth: mean torque too, followed as closely
/// as what is measured on it needs. Tight: final with a tenth of its tolerance, to show how far
/// final has converged.
enum class Accuracy { Draft, Smooth, Final, Tight };

/// What may move a vector that goes from 0 to 1 and back. Where several say so of one vector and
/// direction, any of them may.
struct Cause {
    int state = 0;      ///< index into `vectors` of the one that is moved
    bool rises = false; ///< from 0 to 1, or back
    int by = 0;         ///< index of what moves it
    bool above = false; ///< by being above `level`, or below
    double level = 0;
    bool operator==(const Cause&) const = default;
};

/// What the engine needs to know of one run.
struct Job {
    std::string circuit; ///< complete text, as stock ngspice reads it
    std::vector<std::string>
        vectors; ///< wanted, by their names in the circuit; time comes first unasked
    std::vector<int> potentials; ///< indices into `vectors` of those that are node voltages
    double stop_s = 0;           ///< circuit time at which the run must end
    double highest_v = 0; ///< largest open-circuit voltage; solved potentials stay within twice it
    /// A run that needs more points than this is tried in other orders of elimination first, and to
    /// its end only when each of them needs as many; 0: no such limit.
    std::uint64_t usual_points = 0;
    /// A run in which something moves that has causes, and none of them was there, is no solution.
    std::vector<Cause> causes;
    bool operator==(const Job&) const = default;
};

/// Where the quantities of one element stand among the vectors; -1: not there.
struct Probe {
    int branch = -1;  ///< index into Netlist::network.branches
    double share = 1; ///< of the branch's current, see Member
    int current = -1; ///< vector of the current, of the branch where there is one, A
    int inner = -1;   ///< vector of the node between the branch's R and L, V
    int from = -1;    ///< vector of the `from` node, V (none for the reference node)
    int to = -1;      ///< vector of the `to` node, V
    int open = -1;    ///< fuse: vector that goes from 0 to 1 when the link parts
    int ohms = -1;    ///< vector of the resistance at that instant, where a model publishes it
    std::vector<int> inside_v; ///< battery: vectors of the voltages of its RC pairs
    int source_v = -1;         ///< battery: vector of its open-circuit voltage
};

/// Vectors of the judged controller.
struct UnitProbe {
    int sensed_v = -1; ///< filtered supply voltage
    int motor_a = -1;
    int speed = -1;     ///< rad/s
    int pressure = -1;  ///< 0 equalised .. 1 steady running
    int timer_s = -1;   ///< seconds since the attempt began
    int good = -1;      ///< 1 while the supply is accepted
    int active = -1;    ///< 1 during an attempt and while running
    int waiting = -1;   ///< 1 between giving up and the next attempt
    int stall = -1;     ///< 0.5 and above: a stall was found
    int calling_v = -1; ///< volts across the call terminals; under 2 V the unit is called
};

/// How a netlist is to be built.
struct RunSettings {
    Accuracy accuracy = Accuracy::Final;
    bool held_off = false; ///< the low-voltage cut-out does not act
    int attempts = 3;      ///< the run is long enough for so many
    double loop_scale = 1; ///< every linear resistance of the supply loop times this
    bool operator==(const RunSettings&) const = default;
};

/// A circuit, and how to read what comes back.
struct Netlist {
    Network network;
    RunSettings settings;
    Job job;
    std::vector<Probe> probes; ///< one per element of the network
    UnitProbe unit;
    double lead_s = 1; ///< circuit time at which the scene's time is 0
};

namespace netlist {

/// Builds the circuit. Numbers print as the shortest text that reads back the same.
[[nodiscard]] Netlist
build(const Network& network, const Models& models, const RunSettings& settings);

} // namespace netlist
} // namespace ebbline
