// SPDX-License-Identifier: MIT
// What is bought or measured rather than drawn: catalogues and the circuit text of the devices.
#pragma once

#include "ebbline/installation.h"
#include "ebbline/rule_tables.h"

#include <map>
#include <string>

namespace ebbline {

/// A kind of fault: what is wrong, and with what.
struct FaultKind {
    std::string name;                 ///< for people
    std::string of;                   ///< "joint", "run", "battery", ...: what it can be on
    std::map<std::string, Value> set; ///< keys of that and their values
};

/// What a controller's lamp does, over and over.
struct LampPattern {
    bool steady = false; ///< on all the time; else it flashes
    int flashes = 0;     ///< 0 and not steady: dark
    double flash_s = 0;
    double gap_s = 0;   ///< between two flashes
    double every_s = 0; ///< from the first flash to the first of the next row
    bool operator==(const LampPattern&) const = default;
};

/// Numbers read from models/*.toml.
struct Catalogues {
    /// Conductor class -> nominal area mm2 -> largest resistance at 20 C, mohm/m (= ohm/km).
    std::map<std::string, std::map<double, double>> conductors;
    /// Joint kind -> condition -> mohm.
    std::map<std::string, std::map<std::string, double>> joints;
    /// Battery chemistry -> parameter of battery.lib -> value.
    std::map<std::string, std::map<std::string, double>> chemistries;
    /// Fuse style -> rating A -> cold resistance of the element, mohm.
    std::map<std::string, std::map<double, double>> fuses;
    /// Fuse style -> parameter of fuse.lib -> value.
    std::map<std::string, std::map<std::string, double>> fuse_styles;
    /// Chassis material -> mohm from one bond into the metal.
    std::map<std::string, double> chassis;
    /// Fault kind by its id.
    std::map<std::string, FaultKind> faults;
    /// Outcome of a start, "trips", ... -> what the lamp shows after it; absent: dark.
    std::map<std::string, LampPattern> lamps;
    /// Part kind -> model name -> keys of that kind and their values.
    std::map<std::string, std::map<std::string, std::map<std::string, Value>>> parts;
    /// Published tables that rules are judged by.
    RuleTables rules;
};

/// The device models a run uses.
struct Models {
    Catalogues catalogues;
    std::map<std::string, std::string> circuits; ///< "battery" -> text of battery.lib
};

namespace installation {

/// A part of that kind as the catalogue has its model, or as it is built in.
[[nodiscard]] Part bareOf(const Part& part, const Catalogues& catalogues);

} // namespace installation
} // namespace ebbline
