// SPDX-License-Identifier: MIT
// Published tables that rules are judged by, as the catalogues hold them.
#pragma once

#include "ebbline/parts.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace ebbline {

/// Where a table was printed, and whether it was read there.
struct TableSource {
    std::string text;
    bool from_memory = false; ///< written down from memory: what rests on it is not checked
    bool operator==(const TableSource&) const = default;
};

/// Amperes a conductor carries for ever, by its size and insulation.
struct CapacityTable {
    TableSource source;
    SizeScale scale = SizeScale::Mm2;
    double ambient_c = 30;            ///< for which the table holds
    std::vector<double> insulation_c; ///< temperature ratings, ascending
    /// Size (gauges 1/0, 2/0 as 0, -1) -> amperes, one per insulation rating.
    std::map<double, std::vector<double>> amps;
    double hot_ambient_c = 50;            ///< of an engine space
    std::map<double, double> hot_factors; ///< insulation rating -> factor there, where published
};

/// Circuits that lie together -> factor on their capacity.
struct Bundling {
    TableSource source;
    std::map<double, double> factors;
};

/// Within what time a fuse opens at a multiple of its rating.
struct FuseLimit {
    double times = 1;
    double shortest_s = 0;
    std::optional<double> longest_s; ///< absent: it need not open
    bool operator==(const FuseLimit&) const = default;
};
/// A kind of fuse as its standard bounds it.
struct FuseKind {
    TableSource source;
    double highest_v = 0;          ///< supply voltage it may interrupt
    double highest_a = 0;          ///< largest rating of the kind
    double breaking_a = 0;         ///< largest current it interrupts; 0: not known
    std::vector<FuseLimit> limits; ///< ascending multiples
};

/// What a battery feeds into a short circuit, 12 V block.
struct BatteryFault {
    TableSource source;
    double least_mohm_ah = 0;    ///< inner resistance times capacity, new and warm
    double greatest_mohm_ah = 0; ///< the same of a tired one
    double full_v = 0;           ///< at rest, charged
    double flat_v = 0;           ///< at rest, a quarter charged
};

/// Heat a conductor withstands in a short circuit: current^2 time <= (k area)^2.
struct Withstand {
    TableSource source;
    double final_c = 0; ///< temperature it may reach once
    double k = 0;       ///< A s^0.5 / mm2, from the insulation's rating up to that
};

struct RuleTables {
    std::map<std::string, CapacityTable> capacities; ///< by rule set
    std::map<std::string, Bundling> bundlings;       ///< by id
    std::map<std::string, FuseKind> fuses;           ///< by id, the style of a fuse
    std::map<std::string, BatteryFault> batteries;   ///< by chemistry
    std::map<double, Withstand> withstands;          ///< by insulation rating
};

} // namespace ebbline
