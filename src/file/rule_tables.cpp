// SPDX-License-Identifier: MIT
// Published tables of rules: capacities, bundling, fuse times, battery faults, withstand.
#include "rule_tables.h"

#include "ebbline/words.h"

#include <algorithm>
#include <array>

namespace ebbline::file {
namespace {

constexpr double largest = 1e9;
constexpr double smallest = 1e-9;
constexpr double coldest_c = -100;
constexpr double hottest_c = 1000;

using Row = std::vector<double>;

/// A number that must be there; 0 and a problem otherwise.
double requireNumber(Fields& fields, const std::string& key, double min, double max) {
    if (!fields.table().contains(key))
        fields.problems().add(fields.table().source(), words("missing '{}'", key));
    return fields.takeNumber(key, min, max).value_or(0);
}

Row numbersOf(const toml::node& node, double min, double max, Problems& problems) {
    Row row;
    for (const toml::node* element : elements(node))
        if (const auto value =
                valueOf(*element, {.name = "number", .min = min, .max = max}, problems))
            row.push_back(std::get<double>(*value));
    return row;
}

/// Rows of `least` to `most` numbers; one of another length is a problem.
std::vector<Row>
takeRows(Fields& fields, const std::string& key, std::size_t least, std::size_t most) {
    std::vector<Row> rows;
    const toml::node* node = fields.take(key);
    if (node == nullptr || node->as_array() == nullptr) {
        fields.problems().add(fields.table().source(),
                              words("missing '{}', an array of rows [number, number ...]", key));
        return rows;
    }
    for (const toml::node* element : elements(*node)) {
        Row row = numbersOf(*element, -largest, largest, fields.problems());
        if (row.size() < least || row.size() > most)
            fields.problems().add(element->source(),
                                  words("a row of {} numbers, expected {}", row.size(), most));
        else
            rows.push_back(std::move(row));
    }
    return rows;
}

/// The rows as a map from their first number; each may stand there once.
std::map<double, Row> byFirst(Fields& fields, const std::string& key, std::size_t length) {
    std::map<double, Row> map;
    for (Row& row : takeRows(fields, key, length, length)) {
        const double first = row.front();
        row.erase(row.begin());
        if (!map.emplace(first, std::move(row)).second)
            fields.problems().add(fields.table().source(),
                                  words("a row of '{}' stands twice", key));
    }
    return map;
}

std::map<double, double> pairs(Fields& fields, const std::string& key) {
    std::map<double, double> map;
    for (const auto& [first, rest] : byFirst(fields, key, 2))
        map[first] = rest.front();
    return map;
}

template <class Map, class Name, class Entry>
void put(Map& map, const Name& name, Entry entry, Fields& fields) {
    if (!map.emplace(name, std::move(entry)).second)
        fields.problems().add(fields.table().source(),
                              words("the catalogue has this entry already"));
}

SizeScale takeScale(Fields& fields) {
    static constexpr std::array<std::string_view, 2> scales{"mm2", "awg"};
    const toml::node* node = fields.take("size");
    if (node == nullptr) {
        fields.problems().add(fields.table().source(),
                              words("missing 'size', expected \"mm2\" or \"awg\""));
        return SizeScale::Mm2;
    }
    const auto word =
        valueOf(*node,
                {.name = "size", .type = installation::ValueType::Text, .words = scales},
                fields.problems());
    return word && std::get<std::string>(*word) == "awg" ? SizeScale::Awg : SizeScale::Mm2;
}

void readCapacity(Fields& fields, const TableSource& source, RuleTables& tables) {
    CapacityTable table{.source = source, .scale = takeScale(fields)};
    const auto id = fields.requireText("id");
    table.ambient_c = requireNumber(fields, "ambient_c", coldest_c, hottest_c);
    if (const toml::node* node = fields.take("insulation_c"))
        table.insulation_c = numbersOf(*node, coldest_c, hottest_c, fields.problems());
    table.amps = byFirst(fields, "amps", table.insulation_c.size() + 1);
    if (fields.table().contains("hot_factor")) {
        table.hot_ambient_c =
            requireNumber(fields, "hot_ambient_c", table.ambient_c + 1, hottest_c);
        table.hot_factors = pairs(fields, "hot_factor");
    }
    if (table.insulation_c.empty() || !std::ranges::is_sorted(table.insulation_c))
        fields.problems().add(fields.table().source(),
                              words("insulation_c wants the ratings of the columns, ascending"));
    if (id)
        put(tables.capacities, *id, std::move(table), fields);
}

void readBundling(Fields& fields, const TableSource& source, RuleTables& tables) {
    const auto id = fields.requireText("id");
    Bundling bundling{.source = source, .factors = pairs(fields, "factor")};
    if (id)
        put(tables.bundlings, *id, std::move(bundling), fields);
}

void readFuseLimits(Fields& fields, const TableSource& source, RuleTables& tables) {
    const auto id = fields.requireText("id");
    FuseKind kind{.source = source,
                  .highest_v = requireNumber(fields, "highest_v", smallest, largest),
                  .highest_a = requireNumber(fields, "highest_a", smallest, largest),
                  .breaking_a = requireNumber(fields, "breaking_a", 0, largest),
                  .limits = {}};
    for (const Row& row : takeRows(fields, "opens", 2, 3)) {
        if (!kind.limits.empty() && row[0] <= kind.limits.back().times)
            fields.problems().add(fields.table().source(),
                                  words("the rows of 'opens' want ascending multiples"));
        kind.limits.push_back(
            {.times = row[0],
             .shortest_s = row[1],
             .longest_s = row.size() == 3 ? std::optional(row[2]) : std::nullopt});
    }
    if (id)
        put(tables.fuses, *id, std::move(kind), fields);
}

void readBatteryFault(Fields& fields, const TableSource& source, RuleTables& tables) {
    const auto chemistry = fields.requireText("chemistry");
    BatteryFault fault{.source = source,
                       .least_mohm_ah = requireNumber(fields, "least_mohm_ah", smallest, largest),
                       .greatest_mohm_ah =
                           requireNumber(fields, "greatest_mohm_ah", smallest, largest),
                       .full_v = requireNumber(fields, "full_v", smallest, largest),
                       .flat_v = requireNumber(fields, "flat_v", smallest, largest)};
    if (chemistry)
        put(tables.batteries, *chemistry, std::move(fault), fields);
}

void readWithstand(Fields& fields, const TableSource& source, RuleTables& tables) {
    const double insulation_c = requireNumber(fields, "insulation_c", coldest_c, hottest_c);
    put(tables.withstands,
        insulation_c,
        Withstand{.source = source,
                  .final_c = requireNumber(fields, "final_c", coldest_c, hottest_c),
                  .k = requireNumber(fields, "k", smallest, largest)},
        fields);
}

} // namespace

std::span<const RuleTableKind> ruleTableKinds() {
    static constexpr std::array<RuleTableKind, 5> kinds{{{"current-capacity", readCapacity},
                                                         {"bundling", readBundling},
                                                         {"fuse-limits", readFuseLimits},
                                                         {"battery-fault", readBatteryFault},
                                                         {"conductor-withstand", readWithstand}}};
    return kinds;
}

TableSource takeSource(Fields& fields) {
    // Both were asked for before; what is missing or no word was reported then.
    const auto text = fields.table()["source"].value<std::string>();
    const auto certainty = fields.table()["certainty"].value<std::string>();
    return {.text = text.value_or(""), .from_memory = certainty.value_or("memory") != "standard"};
}

} // namespace ebbline::file
