// SPDX-License-Identifier: MIT
// Published tables as printed, cell by cell, for comparison with catalogues and code.
#pragma once

#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace ebbline::published {

/// A printed table: a number per row, then its cells.
using Rows = std::vector<std::pair<double, std::vector<double>>>;

/// Conductor class -> mm2 -> mohm/m. IEC 60228:2004 tables 2 and 3; the vehicle classes of
/// ISO 6722-1 from memory.
[[nodiscard]] std::map<std::string, std::map<double, double>> conductorTables();
/// AWG -> diameter mm, mm2, circular mils, mohm/m at 20 C.
[[nodiscard]] Rows awgTable();
/// SAE size -> circular mils, shortfall against AWG in % (0: not stated).
[[nodiscard]] Rows saeTable();
/// C -> R(t) / R20.
[[nodiscard]] Rows temperatureTable();
/// AWG -> A at 60, 75, 80, 90, 105, 125, 200 C. 33 CFR 183.425 table 5.
[[nodiscard]] Rows usCapacityTable();
/// mm2 -> A at 60, 70, 85, 105, 125, 200 C. ISO 13297 table A.1, from memory.
[[nodiscard]] Rows isoCapacityTable();
/// AWG -> A of 105 C wire in an engine space. ABYC E-11, without fractions.
[[nodiscard]] Rows engineSpaceTable();
/// Feet out and back -> SAE size at 5, 10, 15, 20, 25, 30, 40, 50, 60 A for 0.36 V. ABYC E-11;
/// `unused` where the print contradicts its own formula.
[[nodiscard]] Rows threePercentTable();
inline constexpr double unused = 100;
/// Feet out and back -> SAE size at 5, 10 ... 100 A for 1.2 V, `unused` where none is stated.
[[nodiscard]] Rows tenPercentTable();
inline constexpr std::array<double, 9> three_percent_a{5, 10, 15, 20, 25, 30, 40, 50, 60};
inline constexpr std::array<double, 13> ten_percent_a{
    5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100};
/// First C -> final C, k as printed. IEC 60364-4-43 table 43A, copper.
[[nodiscard]] Rows withstandTable();
/// mm2 -> k2 S2 at k = 115, A2 s.
[[nodiscard]] Rows heatTable();
/// Multiple of the rating -> shortest and longest time, s; of the first no longest. ISO 8820-3
/// types C and F, from memory.
[[nodiscard]] Rows fuseTable();
/// The same of bolt-in strips (ISO 8820-5), from memory.
[[nodiscard]] Rows boltedFuseTable();
/// A -> cold mohm of medium blade fuses, from memory.
[[nodiscard]] Rows fuseElementTable();
/// Chemistry -> charge % -> rested V of a 12 V block, from memory.
[[nodiscard]] std::map<std::string, std::map<double, double>> restVoltageTables();

} // namespace ebbline::published
