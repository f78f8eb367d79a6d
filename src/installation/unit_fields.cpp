// SPDX-License-Identifier: MIT
// Keys of the controller with its compressor.
#include "fields.h"

namespace ebbline::installation {
namespace {

using enum KeyClass;

constexpr std::array unit_choices{0.0, 12.0, 24.0};

Field unit(std::string_view name,
           double min,
           double max,
           KeyClass key_class,
           std::string_view meaning,
           double Controller::* member) {
    return field(number("controller", name, min, max, key_class, meaning), member);
}

std::vector<Field> supplyFields() {
    return {
        field(one(number("controller", "nominal_v", 0, 24, Drawn, "12 or 24; 0: either"),
                  unit_choices),
              &Controller::nominal_v),
        unit("cut_out_v", 5, 20, Quality, "low-voltage cut-out at 12 V", &Controller::cut_out_v),
        unit("cut_in_v", 5, 20, Quality, "cut-in at 12 V", &Controller::cut_in_v),
        unit("cut_out_24_v",
             10,
             40,
             Quality,
             "low-voltage cut-out at 24 V",
             &Controller::cut_out_24_v),
        unit("cut_in_24_v", 10, 40, Quality, "cut-in at 24 V", &Controller::cut_in_24_v),
        unit("highest_v", 10, 60, Drawn, "stays off above, at 12 V", &Controller::highest_v),
        unit("highest_24_v", 20, 60, Drawn, "stays off above, at 24 V", &Controller::highest_24_v),
        unit(
            "filter_s", 1e-4, 1, Drawn, "time constant of the supply sense", &Controller::filter_s),
        unit("capacitor_uf", 10, 20000, Drawn, "input capacitor", &Controller::capacitor_uf),
        unit("esr_mohm", 1, 1000, Quality, "its series resistance", &Controller::esr_mohm),
        unit("input_mohm", 1, 1000, Drawn, "reverse-blocking input", &Controller::input_mohm),
        unit("standby_w", 0, 20, Drawn, "electronics", &Controller::standby_w),
        unit("fan_w", 0, 50, Drawn, "fan while active", &Controller::fan_w),
        unit("efficiency_pct", 50, 100, Drawn, "inverter", &Controller::efficiency_pct),
    };
}

std::vector<Field> sequenceFields() {
    return {
        unit("delay_s", 0.05, 60, Drawn, "call to first motor current", &Controller::delay_s),
        unit("position_s", 0.06, 10, Drawn, "positioning of the rotor", &Controller::position_s),
        unit("position_a", 0.1, 100, Drawn, "motor current meanwhile", &Controller::position_a),
        unit("spin_up_s", 0.05, 30, Drawn, "rest to full speed", &Controller::spin_up_s),
        unit("speed_rpm", 500, 8000, Drawn, "running speed", &Controller::speed_rpm),
        unit("current_limit_a", 0.5, 200, Drawn, "motor current", &Controller::current_limit_a),
        unit("speed_gain", 0.01, 10, Drawn, "A s/rad", &Controller::speed_gain),
        unit("current_lag_s", 1e-4, 0.1, Drawn, "current control", &Controller::current_lag_s),
        unit("duty_limit_pct", 50, 100, Drawn, "inverter", &Controller::duty_limit_pct),
        unit("retry_s", 1, 3600, Drawn, "wait after giving up", &Controller::retry_s),
        unit("stall_s", 0.1, 10, Drawn, "so long below stall_rpm is a stall", &Controller::stall_s),
        unit("stall_rpm", 10, 3000, Drawn, "crawling", &Controller::stall_rpm),
    };
}

std::vector<Field> machineFields() {
    return {
        unit("motor_constant",
             0.001,
             1,
             Quality,
             "V s/rad and N m/A, line to line",
             &Controller::motor_constant),
        unit("winding_ohm", 0.005, 1000, Quality, "line to line", &Controller::winding_ohm),
        unit("winding_uh", 10, 20000, Drawn, "line to line", &Controller::winding_uh),
        unit("inertia", 1e-6, 0.1, Drawn, "kg m2", &Controller::inertia),
        unit("friction", 0, 5, Quality, "N m", &Controller::friction),
        unit("plug_mohm",
             0,
             1e6,
             Quality,
             "plug of the compressor, in the motor's line",
             &Controller::plug_mohm),
        unit("shorted_pct", 0, 90, Quality, "of the winding's turns", &Controller::shorted_pct),
        field(beside(flag("controller", "dead", Quality, "never drives")), &Controller::dead),
        field(
            beside(number(
                "controller", "shell_c", -40, 200, State, "temperature of the compressor's shell")),
            &Controller::shell_c),
        field(beside(number(
                  "controller", "shell_limit_c", 50, 200, Drawn, "shell above which it stays off")),
              &Controller::shell_limit_c),
        unit("displacement_cm3", 0.2, 50, Drawn, "one cylinder", &Controller::displacement_cm3),
        unit("bore_mm", 5, 80, Drawn, "cylinder", &Controller::bore_mm),
        unit("clearance_pct",
             0.5,
             20,
             Drawn,
             "dead volume over displacement",
             &Controller::clearance_pct),
        unit("crank_ratio",
             0.01,
             0.5,
             Drawn,
             "crank radius over rod length",
             &Controller::crank_ratio),
        unit("polytropic", 1.01, 1.4, Drawn, "exponent", &Controller::polytropic),
        unit("rest_bar", 0.5, 40, State, "both sides, equalised", &Controller::rest_bar),
        unit("suction_bar", 0.1, 40, State, "in steady running", &Controller::suction_bar),
        unit("head_bar", 0.5, 60, State, "in steady running", &Controller::head_bar),
        unit("build_s", 0.5, 600, Drawn, "building up of the pressures", &Controller::build_s),
        unit("bleed_s", 1, 3600, Drawn, "equalising at rest", &Controller::bleed_s),
        unit("pressure_pct",
             0,
             100,
             State,
             "0 equalised, 100 as in running",
             &Controller::pressure_pct),
        unit("start_angle_rad",
             0,
             6.2831,
             State,
             "crank angle at the first turn",
             &Controller::start_angle_rad),
        unit("ripple_s", 0, 60, Drawn, "of an attempt with crank ripple", &Controller::ripple_s),
    };
}

/// What a day of cycling needs; no start knows of it.
Field box(std::string_view name,
          double min,
          double max,
          KeyClass key_class,
          std::string_view meaning,
          double Controller::* member) {
    return field(beside(number("controller", name, min, max, key_class, meaning)), member);
}

std::vector<Field> boxFields() {
    return {
        box("box_w_per_k",
            0.01,
            100,
            Quality,
            "W/K, heat into its box through walls and door",
            &Controller::box_w_per_k),
        box("box_kj_per_k",
            0.1,
            10000,
            State,
            "kJ/K, of what follows within one cycle",
            &Controller::box_kj_per_k),
        box("inside_c", -40, 20, State, "middle of the thermostat's band", &Controller::inside_c),
        box("band_k", 0.01, 20, Drawn, "K, between its on and off", &Controller::band_k),
        box("cop",
            0.1,
            10,
            Quality,
            "cooling over electrical power, at 25 C ambient",
            &Controller::cop),
    };
}

} // namespace

std::vector<Field> unitFields() {
    return joined({supplyFields(), sequenceFields(), machineFields(), boxFields()});
}

} // namespace ebbline::installation
