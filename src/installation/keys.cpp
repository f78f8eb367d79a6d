// SPDX-License-Identifier: MIT
// The one list of keys, each bound to its field by a pointer to member.
#include "fields.h"

#include <algorithm>

namespace ebbline::installation {
namespace {

using enum KeyClass;

constexpr Key number(std::string_view kind,
                     std::string_view name,
                     double min,
                     double max,
                     KeyClass key_class,
                     std::string_view meaning) {
    return {kind, name, ValueType::Number, min, max, key_class, meaning};
}
constexpr Key
flag(std::string_view kind, std::string_view name, KeyClass key_class, std::string_view meaning) {
    return {kind, name, ValueType::Flag, 0, 1, key_class, meaning};
}
constexpr Key textual(std::string_view kind,
                      std::string_view name,
                      KeyClass key_class,
                      std::string_view meaning) {
    return {kind, name, ValueType::Text, 0, 0, key_class, meaning};
}

constexpr Key whole(Key key) {
    key.whole = true;
    return key;
}
constexpr Key one(Key key, std::span<const double> choices) {
    key.choices = choices;
    return key;
}
constexpr Key one(Key key, std::span<const std::string_view> words) {
    key.words = words;
    return key;
}

constexpr std::array nominal_choices{12.0, 24.0};
constexpr std::array unit_choices{0.0, 12.0, 24.0};
// Gauges with an SAE minimum area; 0 is 1/0, -3 is 4/0.
constexpr std::array sae_choices{
    -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0};
constexpr std::array<std::string_view, 4> conditions{"new", "tired", "corroded", "loose"};

/// A field of a part's body under its key.
template <class Body, class Member>
Field field(Key key, Member Body::* member) {
    return {
        key,
        [member](const Part& part) -> std::optional<Value> {
            const Member& value = std::get<Body>(part.body).*member;
            if constexpr (std::is_same_v<Member, std::optional<double>>)
                return value ? std::optional<Value>(*value) : std::nullopt;
            else
                return Value(value);
        },
        [member](Part& part, const Value& value) {
            using Held =
                std::conditional_t<std::is_same_v<Member, std::optional<double>>, double, Member>;
            std::get<Body>(part.body).*member = std::get<Held>(value);
        }};
}

std::vector<Field> batteryFields() {
    const auto kind = "battery";
    return {
        field(textual(kind, "chemistry", Drawn, "names the circuit model"), &Battery::chemistry),
        field(one(number(kind, "nominal_v", 12, 24, Drawn, "12, or 24 for two blocks in a row"),
                  nominal_choices),
              &Battery::nominal_v),
        field(number(kind, "capacity_ah", 1, 2000, Drawn, "at the 20 h rate"),
              &Battery::capacity_ah),
        field(number(kind, "charge_pct", 0, 100, State, "state of charge"), &Battery::charge_pct),
        field(number(kind, "age_pct", 0, 100, Quality, "0 new, 100 resistance doubled"),
              &Battery::age_pct),
        field(
            number(
                kind, "temperature_c", -40, 60, State, "electrolyte; default: as the surroundings"),
            &Battery::temperature_c),
    };
}

std::vector<Field> switchFields() {
    return {
        field(number("isolator", "resistance_mohm", 0.01, 10000, Quality, "closed contact"),
              &Isolator::resistance_mohm),
        field(flag("isolator", "closed", State, "whether it conducts"), &Isolator::closed),
        field(number("thermostat", "resistance_mohm", 0.01, 100000, Quality, "closed contact"),
              &Thermostat::resistance_mohm),
        field(flag("thermostat", "closed", State, "whether it calls"), &Thermostat::closed),
    };
}

std::vector<Field> fuseFields() {
    const auto kind = "fuse";
    return {
        field(number(kind, "rating_a", 0.5, 500, Drawn, "rated current"), &Fuse::rating_a),
        field(number(kind, "holder_mohm", 0, 10000, Quality, "both contacts of the holder"),
              &Fuse::holder_mohm),
        field(number(
                  kind, "resistance_mohm", 0.01, 1000, Quality, "cold element; default: by rating"),
              &Fuse::resistance_mohm),
        field(flag(kind, "blown", State, "whether the link has parted"), &Fuse::blown),
    };
}

std::vector<Field> nodeFields() {
    return {
        field(whole(number("bus-bar", "studs", 2, 40, Drawn, "how many")), &BusBar::studs),
        field(number("stud", "face_mohm", 0, 10000, Quality, "each contact face"),
              &Stud::face_mohm),
    };
}

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
        unit("winding_ohm", 0.005, 20, Quality, "line to line", &Controller::winding_ohm),
        unit("winding_uh", 10, 20000, Drawn, "line to line", &Controller::winding_uh),
        unit("inertia", 1e-6, 0.1, Drawn, "kg m2", &Controller::inertia),
        unit("friction", 0, 5, Quality, "N m", &Controller::friction),
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

std::vector<Field> makeFields() {
    std::vector<Field> all;
    for (const auto& group : {batteryFields(),
                              switchFields(),
                              fuseFields(),
                              nodeFields(),
                              supplyFields(),
                              sequenceFields(),
                              machineFields()})
        all.insert(all.end(), group.begin(), group.end());
    return all;
}

// Keys of things that are no part: read and changed by name in file and apply.
constexpr std::array other_keys{
    number("surroundings", "ambient_c", -40, 70, State, "air around cables and battery"),
    textual("joint", "kind", Drawn, "entry of the joints catalogue"),
    one(textual("joint", "condition", Quality, "new, tired, corroded or loose"), conditions),
    number("joint", "resistance_mohm", 0, 1e6, Quality, "default: by kind and condition"),
    number("run", "length_m", 0.001, 500, Drawn, "one way; default: along route_m"),
    number("run", "spare_m", 0, 100, Drawn, "beyond the length of route_m"),
    number("run", "inductance_uh", 0.01, 10, Drawn, "of the laid pair, per metre"),
    number("run", "area_mm2", 0.1, 500, Drawn, "nominal cross-section"),
    whole(number("run", "awg", -3, 40, Drawn, "gauge; 1/0 is 0, 2/0 is -1")),
    one(number("run", "sae", -3, 18, Drawn, "gauge; 1/0 is 0, 2/0 is -1"), sae_choices),
    textual("run", "conductor", Drawn, "entry of the conductors catalogue"),
};

std::vector<Key> makeKeys() {
    std::vector<Key> all;
    for (const Field& field : fields())
        all.push_back(field.key);
    all.insert(all.end(), other_keys.begin(), other_keys.end());
    return all;
}

} // namespace

const std::vector<Field>& fields() {
    static const std::vector<Field> all = makeFields();
    return all;
}

std::span<const Key> keys() {
    static const std::vector<Key> all = makeKeys();
    return all;
}

const Key* findKey(std::string_view kind, std::string_view name) {
    const auto place = std::ranges::find_if(
        keys(), [&](const Key& key) { return key.kind == kind && key.name == name; });
    return place == keys().end() ? nullptr : &*place;
}

} // namespace ebbline::installation
