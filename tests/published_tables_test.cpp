// SPDX-License-Identifier: MIT
// Published tables whole: every cell against the catalogue or the code.
#include "drawn.h"
#include "published.h"
#include "published_figures.h"

#include "ebbline/network.h"
#include "ebbline/rules.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace ebbline;
using namespace ebbline::published;

namespace {

/// One circular mil, mm2.
constexpr double mm2_per_cmil = 5.067075e-4;

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

std::string cell(const std::string& row, double column) {
    return row + " / " + text::number(column);
}

/// NaN where there is nothing, which no comparison takes for right.
double orNothing(const std::optional<double>& value) {
    return value.value_or(std::nan(""));
}

Comparison compareConductors(const std::string& name) {
    const auto tables = conductorTables();
    const auto& printed = tables.at(name);
    // Neither has a size the other lacks.
    CHECK(catalogues().conductors.at(name).size() == printed.size());
    Comparison found;
    for (const auto& [mm2, mohm] : printed)
        found.add(orNothing(network::conductorMohmPerM({SizeScale::Mm2, mm2}, name, catalogues())),
                  mohm,
                  exact(),
                  cell(name, mm2));
    return found;
}

void addConductors(Sheet& sheet) {
    for (const auto& [name, sizes] : catalogues().conductors) {
        const bool is_vehicle = name.starts_with("vehicle");
        sheet.table("`" + name + "`, mohm/m at 20 C by mm2",
                    compareConductors(name),
                    exact(),
                    is_vehicle ? Source{"ISO 6722-1 and ISO 19642", Certainty::Memory}
                               : Source{"IEC 60228:2004 tables 2 and 3"});
    }
}

void addGauges(Sheet& sheet) {
    const Tolerance rounded = percent(0.05); // of four printed digits
    std::array<Comparison, 4> columns;
    for (const auto& [gauge, printed] : awgTable()) {
        const double mohm =
            orNothing(network::conductorMohmPerM({SizeScale::Awg, gauge}, "class-5", catalogues()));
        const double area_mm2 = network::awgArea(gauge);
        const std::array<double, 4> computed{
            network::awgDiameter(gauge), area_mm2, area_mm2 / mm2_per_cmil, mohm};
        for (std::size_t i = 0; i < columns.size(); ++i)
            columns[i].add(computed[i], printed[i], rounded, cell("AWG", gauge));
    }
    const Source astm{"ASTM B258"};
    sheet.table("AWG: diameter", columns[0], rounded, astm);
    sheet.table("AWG: area", columns[1], rounded, astm);
    sheet.table("AWG: circular mils", columns[2], rounded, astm);
    sheet.table("AWG: mohm/m at 20 C, 0.017241 ohm mm2/m",
                columns[3],
                rounded,
                {"ASTM B258 with IEC 60028", Certainty::Derived});
    Comparison mils;
    Comparison shortfall;
    for (const auto& [gauge, printed] : saeTable()) {
        const double area_mm2 = orNothing(network::saeArea(gauge));
        mils.add(area_mm2 / mm2_per_cmil, printed[0], exact(), cell("SAE", gauge));
        if (printed[1] != 0)
            shortfall.add((area_mm2 / network::awgArea(gauge) - 1) * 100,
                          printed[1],
                          within(0.06),
                          cell("shortfall", gauge));
    }
    sheet.table("SAE sizes: circular mils",
                mils,
                exact(),
                {"minimum areas of the US small-craft practice"});
    sheet.table("SAE sizes: shortfall against AWG, % (a tenth printed)",
                shortfall,
                within(0.06),
                {"from the two tables above", Certainty::Derived});
}

void addTemperature(Sheet& sheet) {
    Comparison found;
    for (const auto& [celsius, printed] : temperatureTable())
        found.add(
            network::conductorOhm(1000, 1, celsius), printed[0], within(6e-4), cell("C", celsius));
    sheet.table("Copper's R(t) / R20, -20 to 105 C (three decimals printed)",
                found,
                within(6e-4),
                {"IEC 60287: (234.5 + t) / 254.5", Certainty::Derived});
}

Comparison compareCapacities(const std::string& table, const Rows& rows) {
    const CapacityTable& found = catalogues().rules.capacities.at(table);
    CHECK(found.amps.size() == rows.size());
    Comparison comparison;
    for (const auto& [size, printed] : rows)
        for (std::size_t i = 0; i < printed.size(); ++i) {
            const auto capacity = verdict::findCapacity(
                found, nullptr, {found.scale, size}, {.insulation_c = found.insulation_c.at(i)});
            comparison.add(capacity ? capacity->amps : std::nan(""),
                           printed[i],
                           exact(),
                           cell(table + " " + text::number(size), found.insulation_c.at(i)));
        }
    return comparison;
}

double usAmps(double gauge, double insulation_c, double ambient_c) {
    return verdict::findCapacity(catalogues().rules.capacities.at("small-craft-us"),
                                 nullptr,
                                 {SizeScale::Awg, gauge},
                                 {.insulation_c = insulation_c, .ambient_c = ambient_c})
        .value()
        .amps;
}

void addCapacities(Sheet& sheet) {
    sheet.table("Capacity by AWG and insulation, 30 C",
                compareCapacities("small-craft-us", usCapacityTable()),
                exact(),
                {"33 CFR 183.425 table 5"});
    sheet.table("Capacity by mm2 and insulation, 30 C",
                compareCapacities("small-craft-iso", isoCapacityTable()),
                exact(),
                {"ISO 13297 table A.1", Certainty::Memory});
    Comparison hot;
    for (const auto& [gauge, printed] : engineSpaceTable())
        hot.add(usAmps(gauge, 105, 50), printed[0], within(0.51), cell("AWG", gauge));
    sheet.table("Capacity of 105 C wire in an engine space of 50 C (whole amperes printed)",
                hot,
                within(0.51),
                {"ABYC E-11"});
    Comparison factors;
    for (const auto& [insulation_c, factor] : std::map<double, double>{
             {60, 0.58}, {75, 0.75}, {80, 0.78}, {90, 0.82}, {105, 0.85}, {125, 0.89}})
        factors.add(usAmps(10, insulation_c, 50) / usAmps(10, insulation_c, 30),
                    factor,
                    within(0.0055),
                    cell("factor", insulation_c));
    sheet.table("Engine-space factors by insulation (hundredths printed)",
                factors,
                within(0.0055),
                {"33 CFR 183.425; all but 105 C", Certainty::Memory});
}

template <std::size_t columns>
Comparison compareSizes(const Rows& rows, const std::array<double, columns>& amps, double drop_v) {
    Comparison found;
    for (const auto& [feet, printed] : rows)
        for (std::size_t i = 0; i < columns; ++i) {
            if (printed.at(i) == unused)
                continue;
            const double cmil =
                verdict::areaForDrop(verdict::us_ohm_cmil_per_ft, amps[i], feet, drop_v);
            found.add(orNothing(verdict::findGauge(cmil, SizeScale::Sae)),
                      printed[i],
                      exact(),
                      cell(text::number(feet) + " ft", amps[i]));
        }
    return found;
}

void addSizes(Sheet& sheet) {
    sheet.table("3 % table at 12 V, SAE sizes by feet and amperes; 8 of 81 entries that contradict "
                "the formula they are printed with are left out",
                compareSizes(threePercentTable(), three_percent_a, 0.36),
                exact(),
                {"ABYC E-11"});
    sheet.table("10 % at 12 V, SAE sizes, 10 and 20 ft",
                compareSizes(tenPercentTable(), ten_percent_a, 1.2),
                exact(),
                {"ABYC E-11 formula", Certainty::Derived});
}

void addProtection(Sheet& sheet) {
    Comparison factors;
    for (const auto& [first_c, printed] : withstandTable())
        factors.add(verdict::withstandFactor(first_c, printed[0]),
                    printed[1],
                    within(0.6),
                    cell(text::number(first_c), printed[0]));
    sheet.table("k of copper by first and final temperature (whole numbers printed)",
                factors,
                within(0.6),
                {"IEC 60364-4-43 table 43A"});
    Comparison catalogue;
    for (const auto& [insulation_c, k] : std::map<double, double>{{70, 115}, {90, 100}, {180, 132}})
        catalogue.add(
            catalogues().rules.withstands.at(insulation_c).k, k, exact(), cell("k", insulation_c));
    sheet.table("k in the catalogue: PVC 70 C, PVC 90 C, silicone",
                catalogue,
                exact(),
                {"IEC 60364-4-43 table 43A"});
    Comparison heat;
    for (const auto& [mm2, printed] : heatTable())
        heat.add(verdict::withstandHeat(115, mm2), printed[0], within(0.51), cell("mm2", mm2));
    sheet.table("k2 S2 at k = 115 (whole numbers)",
                heat,
                within(0.51),
                {"IEC 60364-4-43", Certainty::Derived});
}

void addFuseLimits(Sheet& sheet,
                   const std::string& style,
                   const Rows& table,
                   const std::string& source) {
    const FuseKind& kind = catalogues().rules.fuses.at(style);
    CHECK(kind.limits.size() == table.size());
    Comparison window;
    for (const auto& [times, printed] : table) {
        const FuseLimit limit = verdict::findFuseLimit(kind, times);
        window.add(limit.shortest_s, printed[0], exact(), cell("shortest", times));
        if (printed.size() > 1)
            window.add(orNothing(limit.longest_s), printed[1], exact(), cell("longest", times));
    }
    sheet.table("`" + style + "` fuses: shortest and longest time by multiple of the rating",
                window,
                exact(),
                {source, Certainty::Memory});
}

void addFuses(Sheet& sheet) {
    addFuseLimits(sheet, "blade", fuseTable(), "ISO 8820-3 types C and F");
    addFuseLimits(sheet, "bolt-down", boltedFuseTable(), "ISO 8820-5 bolt-in strips");
    const auto& blades = catalogues().fuses.at("blade");
    CHECK(blades.size() == fuseElementTable().size());
    Comparison elements;
    for (const auto& [rating_a, printed] : fuseElementTable())
        elements.add(blades.at(rating_a), printed[0], exact(), cell("fuse", rating_a));
    sheet.table("Cold resistance of blade fuses by rating",
                elements,
                exact(),
                {"typical medium blade fuses", Certainty::Memory});
}

} // namespace

TEST_CASE("published tables are in the program whole", "[published][network][rules]") {
    Sheet sheet("tables", "T");
    addConductors(sheet);
    addGauges(sheet);
    addTemperature(sheet);
    addCapacities(sheet);
    addSizes(sheet);
    addProtection(sheet);
    addFuses(sheet);
    sheet.keep();
}
