// SPDX-License-Identifier: MIT
// A day of cycling: what the fridge and the rest take from the battery, and when that ends.
#pragma once

#include "ebbline/study.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline {

/// The box that the fridge cools, and how well. Defaults with their reasons:
/// models/controllers.toml.
struct BoxLoad {
    double w_per_k = 1;   ///< heat through walls and door
    double kj_per_k = 15; ///< heat capacity that follows within one cycle
    double inside_c = 5;  ///< middle of the thermostat's band
    double band_k = 4;    ///< between its switching on and off
    double cop = 1.3;     ///< cooling over electrical power at the supply terminals, 25 C ambient
    bool operator==(const BoxLoad&) const = default;
};

/// Power at the supply terminals at one steady voltage, as simulated.
struct UnitPoint {
    double volts = 0;
    double running_w = 0; ///< compressor at its steady speed and pressures
    double idle_w = 0;    ///< not called
    bool operator==(const UnitPoint&) const = default;
};

/// A battery at one state of charge, as simulated.
struct BatteryPoint {
    double charge = 0; ///< 0 to 1
    double open_v = 0;
    double ohm = 0; ///< settled: ohmic part and both RC pairs
    bool operator==(const BatteryPoint&) const = default;
};

/// What a day rests on; everything here comes from short runs of the real circuit models.
struct Characteristics {
    std::vector<UnitPoint> unit; ///< by rising voltage
    /// One per battery of the network, in the order of its elements; by rising charge.
    std::vector<std::vector<BatteryPoint>> batteries;
};

/// What a battery and its consumers did in the first 24 hours.
struct DayTotals {
    double fridge_ah = 0;
    double loads_ah = 0;   ///< other loads, and controllers that are not judged
    double charged_ah = 0; ///< by charging sources, wherever it went
    double battery_ah = 0; ///< out of all batteries less what went in
    double fridge_wh = 0;
    double running_s = 0;
    int starts = 0;
    int failed_starts = 0;   ///< calls that the charge was too low for
    double heat_in_kj = 0;   ///< through the walls
    double heat_out_kj = 0;  ///< by the compressor
    double warming_k = 0;    ///< of the box, from the first to the last moment
    double first_charge = 1; ///< of the battery that feeds the fridge, 0 to 1
    double last_charge = 1;
    bool operator==(const DayTotals&) const = default;
};

enum class DayHappening {
    CutOut,      ///< the voltage at the terminals fell below the cut-out while running
    BatteryFlat, ///< nothing is left in the battery that feeds the fridge
    StartFails,  ///< the charge is too low for a start
    RunsAgain,   ///< after one of these
    FuseOpens,   ///< steady current above what the fuse or breaker holds
};
[[nodiscard]] std::string_view nameOf(DayHappening what);

struct DayEvent {
    double at_h = 0;
    DayHappening what = DayHappening::CutOut;
    double charge = 0;   ///< of the battery that feeds the fridge
    std::string element; ///< fuse or breaker
    bool operator==(const DayEvent&) const = default;
};

/// One instant of the day, for curves.
struct DaySample {
    double at_h = 0;
    double inside_c = 0;
    bool running = false;
    double charge = 0; ///< of the battery that feeds the fridge
    double fridge_v = 0;
    double fridge_a = 0;
    double loads_a = 0;
    double charger_a = 0;
    double battery_a = 0; ///< out of all batteries
    bool operator==(const DaySample&) const = default;
};

/// Which contacts, loads and chargers are on; one per element of the network.
using Switches = std::vector<bool>;

/// A call of the thermostat that was answered.
struct DayStart {
    double at_h = 0;
    std::vector<double> charges; ///< of every battery
    Switches switches;
    bool operator==(const DayStart&) const = default;
};

struct Day {
    DayTotals totals;
    std::vector<DayEvent> events;
    std::vector<DaySample> samples; ///< of the first 24 hours
    std::vector<DayStart> starts;   ///< of the whole time looked at
    bool never_called = false;      ///< the box stays cold by itself
    bool overloaded = false;        ///< the compressor ran all the time and the box stayed warm
};

/// Below which charge starts fail while these contacts, loads and chargers are on.
struct StartLimit {
    Switches switches;
    double charge = 0; ///< of the battery that feeds the fridge, 0 to 1
    Outcome outcome = Outcome::Trips;
};

/// What `ebbline hours` prints.
struct Hours {
    Network network;
    BoxLoad box;
    Characteristics characteristics;
    Day day;                             ///< with starts that fail
    std::optional<double> cut_out_h;     ///< while running, as if every start succeeded
    std::optional<double> flat_h;        ///< the battery is empty before that
    double charge_at_end = 0;            ///< when the one or the other came
    std::vector<StartLimit> limits;      ///< reached on the way there; the highest charge first
    std::optional<double> start_fails_h; ///< the first call that is not answered
    std::optional<double> lowest_start_charge; ///< of the starts on the way
    double ambient_cop = 0;                    ///< at the scene's ambient temperature
    double looked_at_h = 0;                    ///< so far the battery was followed
};

namespace study {

/// How long a battery is followed before it counts as lasting.
inline constexpr double longest_h = 240;

/// What the keys of a controller say of its box.
[[nodiscard]] BoxLoad boxOf(const Controller& unit);

/// Simulates unit and batteries at steady points, follows the day, and tries real starts on the
/// way down. Throws EngineError, and SceneError when no battery feeds the fridge.
[[nodiscard]] Hours runHours(Engine& engine,
                             const Installation& installation,
                             const Models& models,
                             const Progress& progress);
/// The same with another box than the keys say.
[[nodiscard]] Hours runHours(Engine& engine,
                             const Installation& installation,
                             const Models& models,
                             const BoxLoad& box,
                             const Progress& progress);

/// The cooling over electrical power at an ambient temperature.
[[nodiscard]] double copAt(const BoxLoad& box, double ambient_c);

} // namespace study
} // namespace ebbline
