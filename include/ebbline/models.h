// SPDX-License-Identifier: MIT
// What is bought or measured rather than drawn: catalogues and the circuit text of the devices.
#pragma once

#include "ebbline/installation.h"

#include <map>
#include <string>

namespace ebbline {

/// Numbers read from models/*.toml.
struct Catalogues {
    /// Conductor class -> nominal area mm2 -> largest resistance at 20 C, mohm/m (= ohm/km).
    std::map<std::string, std::map<double, double>> conductors;
    /// Joint kind -> condition -> mohm.
    std::map<std::string, std::map<std::string, double>> joints;
    /// Fuse rating A -> cold resistance of the element, mohm.
    std::map<double, double> fuses;
    /// Part kind -> model name -> keys of that kind and their values.
    std::map<std::string, std::map<std::string, std::map<std::string, Value>>> parts;
};

/// The device models a run uses.
struct Models {
    Catalogues catalogues;
    std::map<std::string, std::string> circuits; ///< "battery" -> text of battery.lib
};

} // namespace ebbline
