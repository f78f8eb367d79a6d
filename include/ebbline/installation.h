// SPDX-License-Identifier: MIT
// What was drawn: parts and runs as plain values, and the one list of keys that names every number.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace ebbline {

/// A place on the plan, metres.
struct Position {
    double x_m = 0;
    double y_m = 0;
    bool operator==(const Position&) const = default;
};

/// One connecting point of a part or a run: "house.plus", "twin.1.from".
struct Terminal {
    std::string part;     ///< id of the part or run
    std::string terminal; ///< name of the terminal within it
    bool operator==(const Terminal&) const = default;
    auto operator<=>(const Terminal&) const = default;
    [[nodiscard]] std::string text() const { return part + "." + terminal; }
};

/// A contact at the end of a conductor, or one of a part's own.
struct Joint {
    std::string kind = "crimp";            ///< entry of the joints catalogue
    std::string condition = "new";         ///< new | tired | corroded | loose
    std::optional<double> resistance_mohm; ///< measured or assumed; absent: by kind and condition
    bool operator==(const Joint&) const = default;
};

/// How a conductor's cross-section was stated.
enum class SizeScale { Mm2, Awg, Sae };

/// Cross-section: 2.5 mm2, AWG 12, SAE 12. AWG 1/0, 2/0 ... are stored as 0, -1 ...
struct Size {
    SizeScale scale = SizeScale::Mm2;
    double value = 2.5;
    bool operator==(const Size&) const = default;
};

/// One conductor of a run, with the joints at its two ends.
struct Core {
    Terminal from;
    Terminal to;
    Size size;
    std::string conductor = "class-5"; ///< entry of the conductors catalogue
    Joint joint_from;
    Joint joint_to;
    bool operator==(const Core&) const = default;
};

/// A cable as drawn: one core, or several along one way.
struct Run {
    std::string id;
    std::string name;               ///< free text, may be empty
    std::string note;               ///< free text, may be empty
    std::vector<Core> cores;        ///< at least one
    std::optional<double> length_m; ///< one way; absent: length of `route_m` plus `spare_m`
    std::vector<Position> route_m;
    double spare_m = 0;
    double inductance_uh = 0.6; ///< of the laid pair, per metre of run; a single core takes half
    bool operator==(const Run&) const = default;

    /// Length of the cable one way, metres.
    [[nodiscard]] double length() const;
    /// "feed.from" of a single core; "twin.1.from" of a multi-core run. `core` counts from 0.
    [[nodiscard]] std::string endName(std::size_t core, std::string_view end) const;
    /// "feed" of a single core, "twin.1" of a multi-core run.
    [[nodiscard]] std::string coreName(std::size_t core) const;
};

/// Terminals plus, minus.
struct Battery {
    std::string chemistry = "wet-lead"; ///< names the circuit model: battery-wet-lead
    double nominal_v = 12;              ///< 12, or 24 for two blocks in a row
    double capacity_ah = 100;           ///< at the 20 h rate
    double charge_pct = 100;
    double age_pct = 0;                  ///< 0 new, 100 at the end of its life (resistance doubled)
    std::optional<double> temperature_c; ///< of the electrolyte; absent: as the surroundings
    bool operator==(const Battery&) const = default;
};

/// Terminals line, load.
struct Isolator {
    double resistance_mohm = 0.5; ///< closed contact
    bool closed = true;
    bool operator==(const Isolator&) const = default;
};

/// Terminals line, load. Holder contacts included.
struct Fuse {
    double rating_a = 15;
    double holder_mohm = 2;                ///< both contacts of the holder together
    std::optional<double> resistance_mohm; ///< cold element; absent: by rating
    bool blown = false;
    bool operator==(const Fuse&) const = default;
};

/// Terminals <id>.1 ... <id>.N, all one node.
struct BusBar {
    double studs = 4;
    bool operator==(const BusBar&) const = default;
};

/// Terminal post; lugs bolted on one another, one contact face each.
struct Stud {
    std::vector<Terminal> stack; ///< run ends from the bottom up
    double face_mohm = 0.1;      ///< each contact face
    bool operator==(const Stud&) const = default;
};

/// Terminals line, load; in the controller's call loop.
struct Thermostat {
    double resistance_mohm = 20;
    bool closed = true;
    bool operator==(const Thermostat&) const = default;
};

/// Controller with its compressor. Terminals plus, minus, call, call-return, lamp, u, v, w.
/// Meanings, units and reasons for every default stand in models/controllers.toml.
struct Controller {
    double nominal_v = 0; ///< 12 or 24; 0: either, settled by the supply
    double cut_out_v = 10.5;
    double cut_in_v = 11.3;
    double cut_out_24_v = 21.0;
    double cut_in_24_v = 22.6;
    double highest_v = 17; ///< above this a 12 V unit stays off
    double highest_24_v = 34;
    double filter_s = 0.02;
    double capacitor_uf = 1000;
    double esr_mohm = 30;
    double input_mohm = 5;
    double standby_w = 0.4;
    double fan_w = 2.5;
    double efficiency_pct = 95;
    double delay_s = 0.2;
    double position_s = 0.35;
    double position_a = 8;
    double spin_up_s = 0.35;
    double speed_rpm = 3500;
    double current_limit_a = 20;
    double speed_gain = 0.5; ///< A s/rad
    double current_lag_s = 0.001;
    double duty_limit_pct = 95;
    double motor_constant = 0.0246; ///< V s/rad, line to line; also N m/A
    double winding_ohm = 0.15;
    double winding_uh = 400;
    double inertia = 2e-4;   ///< kg m2
    double friction = 0.015; ///< N m
    double retry_s = 60;
    double stall_s = 0.6;
    double stall_rpm = 380;
    double displacement_cm3 = 2;
    double bore_mm = 21;
    double clearance_pct = 4;
    double crank_ratio = 0.12;
    double polytropic = 1.1;
    double rest_bar = 5;
    double suction_bar = 2.01;
    double head_bar = 11.6;
    double build_s = 20;
    double bleed_s = 120;
    double pressure_pct = 0; ///< state: 0 equalised, 100 as in steady running
    double start_angle_rad = 0.5;
    double ripple_s = 2.5; ///< of an attempt with crank ripple; later its mean torque
    bool operator==(const Controller&) const = default;
};

using Body = std::variant<Battery, Isolator, Fuse, BusBar, Stud, Thermostat, Controller>;

/// A thing with terminals.
struct Part {
    std::string id;
    std::string name;  ///< free text, may be empty
    std::string note;  ///< free text, may be empty
    std::string model; ///< catalogue entry its keys were taken from, may be empty
    std::optional<Position> at_m;
    Body body;
    bool operator==(const Part&) const = default;
};

/// "the drawn thing, but with this different": one key of one part or run set to a value.
using Value = std::variant<double, bool, std::string>;
struct Change {
    std::string path; ///< id[.core][.end].key, group word.key, or surroundings.key
    Value value;
    bool operator==(const Change&) const = default;
};

/// A change of state with a time.
struct Event {
    double at_s = 0;
    std::vector<Change> set;
    bool operator==(const Event&) const = default;
};

/// A named set of changes to quality and state.
struct Condition {
    std::string id;
    std::string name;
    std::vector<Change> set;
    bool operator==(const Condition&) const = default;
};

struct Surroundings {
    double ambient_c = 20;
    bool operator==(const Surroundings&) const = default;
};

/// The whole drawn installation.
struct Installation {
    std::string title;
    std::string note;
    double nominal_v = 12;
    std::string rules;   ///< rule set by name, may be empty
    std::string subject; ///< id of the controller that is judged
    Surroundings surroundings;
    std::vector<Part> parts;
    std::vector<Run> runs;
    std::vector<Event> events; ///< sorted by time
    std::vector<Condition> conditions;
    bool operator==(const Installation&) const = default;

    [[nodiscard]] const Part* findPart(std::string_view id) const;
    [[nodiscard]] const Run* findRun(std::string_view id) const;
};

namespace installation {

/// What a key describes, and so who may change it: events change State; conditions State and
/// Quality; sizing and routing Drawn; faults any.
enum class KeyClass { Drawn, Quality, State };
enum class ValueType { Number, Flag, Text };

/// One key of one kind, as files, changes and circuits name it.
struct Key {
    std::string_view kind; ///< "battery", "fuse", ..., "run", "joint", "surroundings"
    std::string_view name; ///< with its unit suffix, as in the file
    ValueType type = ValueType::Number;
    double min = 0; ///< numbers only, both ends allowed
    double max = 0;
    KeyClass key_class = KeyClass::Drawn;
    std::string_view meaning;
    bool whole = false;              ///< numbers only: without a fraction
    std::span<const double> choices; ///< numbers only: nothing else allowed; empty: all in range
    std::span<const std::string_view> words; ///< texts only: nothing else allowed; empty: any
};

/// Every key there is, by kind, in the order files show them.
[[nodiscard]] std::span<const Key> keys();
[[nodiscard]] const Key* findKey(std::string_view kind, std::string_view name);
/// What keeps a value from being one of the key's: "is 130, expected 0 to 100"; nothing if it fits.
[[nodiscard]] std::optional<std::string> findMisfit(const Key& key, const Value& value);

/// "battery", "bus-bar", ...: the kind of a part as files name it.
[[nodiscard]] std::string_view kindOf(const Part& part);
/// All part kinds.
[[nodiscard]] std::span<const std::string> kinds();
/// A part of the given kind with built-in defaults; nothing for an unknown kind.
[[nodiscard]] std::optional<Body> makeBody(std::string_view kind);

/// Terminal names of a part ("plus", "minus"; "1" ... "6" of a bus bar), in drawing order.
[[nodiscard]] std::vector<std::string> terminalsOf(const Part& part);

/// Reads or sets one key of a part. The key belongs to the part's kind and the value to its type
/// and range, both checked before. An optional number that is absent reads as nothing.
[[nodiscard]] std::optional<Value> get(const Part& part, const Key& key);
void set(Part& part, const Key& key, const Value& value);

/// The key that a path names. Throws SceneError (without a place) for an unknown owner or key, and
/// for a key of a whole run that is asked of one core.
[[nodiscard]] const Key& findTarget(const Installation& installation, const std::string& path);

/// The installation with every change made, in order. Throws SceneError (without a place) that
/// names the path for an unknown part or key, a wrong type, a value that does not fit the key.
[[nodiscard]] Installation apply(Installation installation, std::span<const Change> changes);

} // namespace installation
} // namespace ebbline
