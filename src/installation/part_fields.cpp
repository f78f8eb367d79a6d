// SPDX-License-Identifier: MIT
// Keys of every kind of part but the controller.
#include "fields.h"

namespace ebbline::installation {
namespace {

using enum KeyClass;

constexpr std::array nominal_choices{12.0, 24.0};
constexpr std::array<std::string_view, 2> styles{"blade", "bolt-down"};
constexpr std::array<std::string_view, 3> laws{"resistance", "current", "power"};

std::vector<Field> batteryFields() {
    const auto kind = "battery";
    return {
        field(textual(kind, "chemistry", Drawn, "entry of the chemistry catalogue"),
              &Battery::chemistry),
        field(one(number(kind, "nominal_v", 12, 24, Drawn, "12, or 24 for two blocks in a row"),
                  nominal_choices),
              &Battery::nominal_v),
        field(number(kind, "capacity_ah", 1, 2000, Drawn, "at the 20 h rate"),
              &Battery::capacity_ah),
        field(number(kind, "charge_pct", 0, 100, State, "state of charge"), &Battery::charge_pct),
        field(number(kind, "age_pct", 0, 100, Quality, "0 new, 100 resistance doubled"),
              &Battery::age_pct),
        field(whole(number(kind, "dead_cells", 0, 3, Quality, "shorted, of the first block")),
              &Battery::dead_cells),
        field(
            number(
                kind, "temperature_c", -40, 60, State, "electrolyte; default: as the surroundings"),
            &Battery::temperature_c),
    };
}

std::vector<Field> chargerFields() {
    const auto kind = "charger";
    return {
        field(number(kind, "voltage_v", 10, 60, Drawn, "held up to the limit"),
              &Charger::voltage_v),
        field(number(kind, "current_a", 0.1, 500, Drawn, "limit"), &Charger::current_a),
        field(number(kind, "resistance_mohm", 1, 10000, Quality, "its voltage gives way by"),
              &Charger::resistance_mohm),
        field(number(kind, "capacitor_uf", 100, 100000, Drawn, "of its output"),
              &Charger::capacitor_uf),
        field(flag(kind, "on", State, "whether it charges"), &Charger::on),
    };
}

std::vector<Field> isolatorFields() {
    const auto kind = "isolator";
    return {
        field(number(kind, "resistance_mohm", 0.01, 10000, Quality, "closed contact"),
              &Isolator::resistance_mohm),
        field(flag(kind, "closed", State, "whether it conducts"), &Isolator::closed),
    };
}

std::vector<Field> fuseFields() {
    const auto kind = "fuse";
    return {
        field(one(textual(kind, "style", Drawn, "blade or bolt-down"), styles), &Fuse::style),
        field(number(kind, "rating_a", 0.5, 500, Drawn, "rated current"), &Fuse::rating_a),
        field(number(kind, "holder_mohm", 0, 10000, Quality, "both contacts of the holder"),
              &Fuse::holder_mohm),
        field(number(
                  kind, "resistance_mohm", 0.01, 1000, Quality, "cold element; default: by rating"),
              &Fuse::resistance_mohm),
        field(number(kind, "age_pct", 0, 100, Quality, "0 new, 100 as tired as one that holds"),
              &Fuse::age_pct),
        field(flag(kind, "blown", State, "whether the link has parted"), &Fuse::blown),
    };
}

std::vector<Field> breakerFields() {
    const auto kind = "breaker";
    return {
        field(number(kind, "rating_a", 0.5, 500, Drawn, "rated current"), &Breaker::rating_a),
        field(number(kind, "resistance_mohm", 0.01, 1000, Quality, "cold, with its terminals"),
              &Breaker::resistance_mohm),
        field(flag(kind, "tripped", State, "whether it has opened"), &Breaker::tripped),
    };
}

std::vector<Field> leadFields() {
    const auto kind = "bench-leads";
    return {
        field(number(kind, "length_m", 0.1, 20, Drawn, "of each lead"), &BenchLeads::length_m),
        field(number(kind, "area_mm2", 0.1, 95, Drawn, "nominal cross-section, class 5"),
              &BenchLeads::area_mm2),
        field(number(kind, "clip_mohm", 0, 1000, Quality, "each of the four clips"),
              &BenchLeads::clip_mohm),
        field(number(kind, "rating_a", 0.5, 500, Drawn, "fuse in the plus lead"),
              &BenchLeads::rating_a),
        field(number(kind, "holder_mohm", 0, 10000, Quality, "both contacts of its holder"),
              &BenchLeads::holder_mohm),
        field(flag(kind, "blown", State, "whether its link has parted"), &BenchLeads::blown),
    };
}

Field panelWays() {
    return {whole(number("panel", "ways", 1, 40, Drawn, "how many switches")),
            [](const Part& part) -> std::optional<Value> {
                return static_cast<double>(std::get<Panel>(part.body).ways.size());
            },
            [](Part& part, const Value& value) {
                std::get<Panel>(part.body).ways.resize(
                    static_cast<std::size_t>(std::get<double>(value)));
            }};
}

} // namespace

std::vector<Field> sourceFields() {
    return joined({batteryFields(), chargerFields()});
}

std::vector<Field> protectionFields() {
    return joined({isolatorFields(), fuseFields(), breakerFields(), leadFields()});
}

std::vector<Field> wiringFields() {
    return {
        field(whole(number("bus-bar", "studs", 2, 40, Drawn, "how many")), &BusBar::studs),
        field(number("stud", "face_mohm", 0, 10000, Quality, "each contact face"),
              &Stud::face_mohm),
        field(flag("plug", "mated", State, "false: pulled apart"), &Plug::mated),
        panelWays(),
        field(number("panel", "rail_mohm", 0, 10000, Quality, "from the feed to every switch"),
              &Panel::rail_mohm),
        field(textual("chassis", "material", Drawn, "entry of the chassis catalogue"),
              &Chassis::material),
        field(number("chassis",
                     "spread_mohm",
                     0,
                     1000,
                     Quality,
                     "from a bond into the metal; default: by material"),
              &Chassis::spread_mohm),
        field(number("meter", "resistance_mohm", 1e6, 1e13, Drawn, "input resistance"),
              &Meter::resistance_mohm),
    };
}

std::vector<Field> consumerFields() {
    const auto kind = "load";
    return {
        field(number("thermostat", "resistance_mohm", 0.01, 100000, Quality, "closed contact"),
              &Thermostat::resistance_mohm),
        field(flag("thermostat", "closed", State, "whether it calls"), &Thermostat::closed),
        field(one(textual(kind, "law", Drawn, "which of the three it keeps"), laws), &Load::law),
        field(number(kind, "resistance_ohm", 0.02, 1e6, Drawn, "of a resistance"),
              &Load::resistance_ohm),
        field(number(kind, "current_a", 0, 500, Drawn, "of a current"), &Load::current_a),
        field(number(kind, "power_w", 0, 5000, Drawn, "of a power"), &Load::power_w),
        field(number(kind, "start_times", 1, 20, Drawn, "current at switching on, over steady"),
              &Load::start_times),
        field(number(kind, "start_s", 0.001, 60, Drawn, "time constant of its dying away"),
              &Load::start_s),
        field(
            number(kind, "follow_s", 1e-5, 10, Drawn, "of a power: its control follows the volts"),
            &Load::follow_s),
        field(number(kind, "capacitor_uf", 1, 100000, Drawn, "its input capacitor"),
              &Load::capacitor_uf),
        field(flag(kind, "on", State, "whether it draws"), &Load::on),
    };
}

} // namespace ebbline::installation
