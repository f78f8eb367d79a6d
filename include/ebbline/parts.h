// SPDX-License-Identifier: MIT
// Parts and runs as plain values: what can be drawn.
#pragma once

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
    double film_mohm = 0;     ///< of a film on the metal, at small currents, in series; 0: clean
    double film_v = 0.3;      ///< most that the film holds
    double opens_per_min = 0; ///< how often it lets go by itself, on average; 0: never
    double opens_ms = 30;     ///< for how long each time
    double opens_seed = 1;    ///< of the chance that says when
    bool connected = true;    ///< false: taken off, or fallen off
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
    std::optional<double> inductance_uh; ///< of the pair, per metre of run; absent: by its laying
    double apart_mm = 0;                 ///< between the axes of out and back; 0: laid together
    double over_metal_mm = 0; ///< axis of a single core above the metal it returns by; 0: a pair
    double broken_pct = 0;    ///< of the strands
    std::optional<double> ambient_c; ///< of the air around it; absent: as the surroundings
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
    std::string chemistry = "wet-lead"; ///< entry of the catalogue of chemistries
    double nominal_v = 12;              ///< 12, or 24 for two blocks in a row
    double capacity_ah = 100;           ///< at the 20 h rate
    double charge_pct = 100;
    double age_pct = 0;                  ///< 0 new, 100 at the end of its life (resistance doubled)
    double dead_cells = 0;               ///< shorted, of the first block
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
    std::string style = "blade"; ///< entry of the fuse styles: blade, bolt-down
    double rating_a = 15;
    double holder_mohm = 2;                ///< both contacts of the holder together
    std::optional<double> resistance_mohm; ///< cold element; absent: by rating
    double age_pct = 0;                    ///< 0 new, 100 as tired as a link gets that still holds
    bool blown = false;
    bool operator==(const Fuse&) const = default;
};

/// Terminals line, load. Opens on overcurrent and can be set again by hand.
struct Breaker {
    double rating_a = 15;
    double resistance_mohm = 8; ///< cold, terminals included
    bool tripped = false;
    bool operator==(const Breaker&) const = default;
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

/// A detachable connector of two poles. Terminals in-plus, in-minus, out-plus, out-minus.
struct Plug {
    Joint plus{.kind = "plug-contact"};
    Joint minus{.kind = "plug-contact"};
    bool mated = true;
    bool operator==(const Plug&) const = default;
};

/// A sleeve between two conductors; their crimps are the joints of the runs. Terminals line, load.
struct Splice {
    Joint sleeve{.kind = "sleeve"};
    bool operator==(const Splice&) const = default;
};

/// Sheet metal or a frame that carries the return current. Reached through bonds, no terminals.
struct Chassis {
    std::string material = "steel-sheet"; ///< entry of the chassis catalogue
    std::optional<double> spread_mohm;    ///< from one bond into the metal; absent: by material
    bool operator==(const Chassis&) const = default;
};

/// A lug bolted to a chassis. Terminal lug.
struct Bond {
    std::string to; ///< id of the chassis
    Joint lug{.kind = "bond"};
    bool operator==(const Bond&) const = default;
};

/// One switched way of a panel.
struct PanelWay {
    double resistance_mohm = 1.5; ///< closed switch and its terminals
    bool closed = true;
    bool operator==(const PanelWay&) const = default;
};

/// A feed rail with switches. Terminals feed, 1 ... N.
struct Panel {
    double rail_mohm = 0.3; ///< from the feed terminal to every switch
    std::vector<PanelWay> ways = std::vector<PanelWay>(4);
    bool operator==(const Panel&) const = default;
};

/// Something else that draws current. Terminals plus, minus.
struct Load {
    std::string law = "resistance"; ///< resistance | current | power: which of the three is kept
    double resistance_ohm = 2.4;
    double current_a = 5;
    double power_w = 60;
    double start_times = 1;  ///< current at switching on, over the steady one
    double start_s = 0.3;    ///< time constant with which that dies away
    double follow_s = 0.001; ///< of a power: time constant with which its control follows the volts
    double capacitor_uf = 100; ///< its input capacitor
    bool on = true;
    bool operator==(const Load&) const = default;
};

/// A charging source: holds its voltage up to its current limit. Terminals plus, minus.
struct Charger {
    double voltage_v = 14.4;
    double current_a = 20;
    double resistance_mohm = 10; ///< by which its voltage gives way below the limit
    double capacitor_uf = 2000;  ///< of its output
    bool on = true;
    bool operator==(const Charger&) const = default;
};

/// Two leads with clips and a fuse in the plus lead. Terminals from-plus, from-minus, to-plus,
/// to-minus.
struct BenchLeads {
    static constexpr const char* conductor = "class-5";
    double length_m = 1.5; ///< of each lead
    double area_mm2 = 4;
    double clip_mohm = 1; ///< each clip, at both ends of both leads
    double rating_a = 15;
    double holder_mohm = 2;
    bool blown = false;
    bool operator==(const BenchLeads&) const = default;
};

/// A voltmeter with its leads on two terminals or run ends of others; none of its own.
struct Meter {
    Terminal plus;
    Terminal minus;
    double resistance_mohm = 1e10; ///< input resistance, 10 Mohm
    bool operator==(const Meter&) const = default;
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
    double inertia = 2e-4;      ///< kg m2
    double friction = 0.015;    ///< N m
    double plug_mohm = 0;       ///< of the plug on the compressor, in the motor's line
    double shorted_pct = 0;     ///< of the winding's turns
    bool dead = false;          ///< never drives
    double shell_c = 40;        ///< state: temperature of the compressor's shell
    double shell_limit_c = 110; ///< above which it stays off
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
    double ripple_s = 1.5;    ///< of an attempt with crank ripple; later its mean torque
    double box_w_per_k = 1;   ///< heat through walls and door of the box it cools
    double box_kj_per_k = 15; ///< heat capacity that follows within one cycle
    double inside_c = 5;      ///< middle of the thermostat's band
    double band_k = 4;        ///< between its switching on and off
    double cop = 1.3; ///< cooling over electrical power at 25 C ambient, at the supply terminals
    bool operator==(const Controller&) const = default;
};

using Body = std::variant<Battery,
                          Charger,
                          Isolator,
                          Fuse,
                          Breaker,
                          BusBar,
                          Stud,
                          Splice,
                          Plug,
                          Panel,
                          Chassis,
                          Bond,
                          BenchLeads,
                          Thermostat,
                          Controller,
                          Load,
                          Meter>;

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

namespace installation {

/// Whether something of its own keeps a controller from driving, supplied and called as it may be.
[[nodiscard]] bool isKeptOff(const Controller& unit);

/// "battery", "bus-bar", ...: the kind of a part as files name it.
[[nodiscard]] std::string_view kindOf(const Part& part);
/// All part kinds.
[[nodiscard]] std::span<const std::string> kinds();
/// A part of the given kind with built-in defaults; nothing for an unknown kind.
[[nodiscard]] std::optional<Body> makeBody(std::string_view kind);

/// Terminal names of a part ("plus", "minus"; "1" ... "6" of a bus bar), in drawing order.
[[nodiscard]] std::vector<std::string> terminalsOf(const Part& part);

/// A joint with the name by which paths and files know it: "twin.1.from", "bond.lug".
struct NamedJoint {
    std::string name;
    Joint* joint = nullptr;
};
/// The joints of a part's own: sleeve of a splice, plus and minus of a plug, lug of a bond.
[[nodiscard]] std::vector<NamedJoint> jointsOf(Part& part);
/// The joints at the ends of a run's cores.
[[nodiscard]] std::vector<NamedJoint> jointsOf(Run& run);

} // namespace installation
} // namespace ebbline
