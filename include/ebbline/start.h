// SPDX-License-Identifier: MIT
// What a solved circuit says about one start: events, figures, and where the voltage goes.
#pragma once

#include "ebbline/netlist.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ebbline {

/// The vectors a job asked for, in its order, after time.
struct Solved {
    std::vector<double> time_s;               ///< strictly increasing
    std::vector<std::vector<double>> vectors; ///< vectors[k][i] belongs to time_s[i]
    bool operator==(const Solved&) const = default;
};
/// The circuit was refused, or the run ended early or with values that cannot be.
struct NotSolved {
    std::string reason;
    std::string log; ///< last lines of the simulator's own messages
    bool operator==(const NotSolved&) const = default;
};
/// The job took longer than its deadline; the worker was killed.
struct TimedOut {
    double deadline_s = 0;
    bool operator==(const TimedOut&) const = default;
};
/// The worker ended before it answered.
struct Crashed {
    std::string reason; ///< "ended by signal 9", "exit status 3"
    bool operator==(const Crashed&) const = default;
};
/// The worker's answer broke the protocol; the worker was killed.
struct Rejected {
    std::string reason;
    bool operator==(const Rejected&) const = default;
};
using Solution = std::variant<Solved, NotSolved, TimedOut, Crashed, Rejected>;

/// What the fridge did.
enum class Outcome {
    Starts,
    Trips,  ///< the low-voltage cut-out acted during the first attempt
    Stalls, ///< the rotor did not turn
    FuseOpens,
    NotPowered,     ///< no voltage at the controller
    SupplyLow,      ///< never reaches the cut-in that the first power-up needs
    ThermostatOpen, ///< never called
    Reversed,       ///< plus and minus exchanged
    WrongVoltage,   ///< above what the unit accepts, or another nominal voltage than its own
    NotDriven,      ///< supplied and called, and something of the unit's own keeps it off
};
/// "starts", "trips", ... as in files and on the command line.
[[nodiscard]] std::string_view nameOf(Outcome outcome);

enum class Happening {
    SupplyOn,
    Calls,
    Positions,
    SpinsUp,
    FullSpeed,
    GaveUp,
    TriesAgain,
    FuseOpens,
};
/// "supply on", "thermostat calls", ...
[[nodiscard]] std::string_view nameOf(Happening happening);

struct StartEvent {
    double at_s = 0; ///< scene time
    Happening what = Happening::SupplyOn;
    bool operator==(const StartEvent&) const = default;
};

/// Where on the supply loop an element lies.
enum class Side { Source, Out, Back };
[[nodiscard]] std::string_view nameOf(Side side);

/// Volts lost in one element of the supply loop at one instant, by its own law.
struct LedgerRow {
    std::string element;
    Side side = Side::Out;
    double volts = 0;           ///< lost in the sense of the loop: ohmic and inductive part
    double amps = 0;            ///< its own current in that sense
    std::optional<double> ohms; ///< volts over amps; absent where no current flows
    bool operator==(const LedgerRow&) const = default;

    [[nodiscard]] double watts() const { return volts * amps; }
    /// No conductor, joint or closed contact has so many ohms.
    [[nodiscard]] bool isOpen() const { return ohms && *ohms > 1e4; }
};

/// The whole loop at one instant: source_v - sum of volts - controller_v = error_v.
struct Ledger {
    double at_s = 0; ///< scene time
    double source_v = 0;
    double controller_v = 0;
    std::vector<LedgerRow> rows;
    [[nodiscard]] double error() const; ///< V
};

/// The try that reached full speed.
struct RunningTry {
    int number = 1; ///< counted from 1
    double at_s = 0;
};

/// What a meter of the drawing shows.
struct MeterReading {
    std::string meter;
    double lowest_v = 0;
    double highest_v = 0;
    std::optional<double> at_lowest_v; ///< when the controller's own voltage is lowest
    bool operator==(const MeterReading&) const = default;
};

/// One try of the unit, from its first drive current to its end.
struct Attempt {
    double begin_s = 0;
    double end_s = 0;
    bool gave_up = false;
    bool stalled = false;
    bool operator==(const Attempt&) const = default;
};

/// The controller's own quantities over scene time.
struct Waveform {
    std::vector<double> time_s;
    std::vector<double> volts;  ///< between its supply terminals
    std::vector<double> sensed; ///< filtered, what its cut-out decides by
    std::vector<double> amps;   ///< supply current
    std::vector<double> speed;  ///< rad/s
};

/// Every element of the network at one instant, in its own sense from -> to.
struct Frame {
    double at_s = 0;     ///< scene time
    double source_v = 0; ///< open-circuit, of the loop's battery; 0 without a loop
    double controller_v = 0;
    std::vector<double> volts; ///< per element: lost in it by its own law (a battery: inside it);
                               ///< across it where it is no part of the wiring
    std::vector<double> amps;  ///< per element; 0 where the circuit holds no current of it
    /// Per node, against the circuit's reference: only differences within one island are readings.
    std::vector<double> potentials;
    bool operator==(const Frame&) const = default;
};

/// One start as simulated. Absent values are undefined, never 0. Times are scene times.
struct Start {
    Outcome outcome = Outcome::NotPowered;
    std::vector<StartEvent> events;
    std::vector<Attempt> attempts;
    std::optional<double> lowest_v; ///< first attempt, between the supply terminals
    std::optional<double> lowest_at_s;
    std::optional<double> sensed_lowest_v; ///< first attempt, filtered
    std::optional<double> source_v;        ///< open-circuit, at the lowest moment
    std::optional<double> inrush_a;        ///< largest in the first 10 ms after power arrives
    std::optional<double> peak_a;          ///< largest mean over 1 ms after the first motor current
    std::optional<double> running_a;       ///< mean over the last whole second of running
    std::optional<double> running_v;
    bool reached_speed = false; ///< the first attempt came to nine tenths of the target speed
    int retries = 0;
    double horizon_s = 0;
    std::optional<Ledger> ledger; ///< at the lowest moment
    double ledger_error_v = 0;    ///< largest at any stored instant at which the loop conducts
    std::vector<MeterReading> meters;
    Waveform waveform;
    /// The whole network at a few hundred instants, the lowest moment among them, so chosen that
    /// straight lines between them follow the waveform closely.
    std::vector<Frame> frames;
};

namespace start {

/// The network at scene time `at_s`, on the straight line between two frames; there is at least
/// one frame.
[[nodiscard]] Frame frameAt(const Start& start, double at_s);

/// The ledger at stored instant `index`. Each element's resistance is its own law's, its current
/// the network's, so the sum can fail to close.
[[nodiscard]] Ledger readLedger(const Solved& solved, const Netlist& netlist, std::size_t index);

/// The first try that reached full speed; nothing where none did.
[[nodiscard]] std::optional<RunningTry> findRunningTry(const Start& start);

/// Reads events, figures and ledger.
[[nodiscard]] Start read(const Solved& solved, const Netlist& netlist);

} // namespace start

} // namespace ebbline
