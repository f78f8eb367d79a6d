// SPDX-License-Identifier: MIT
// The tables of scenes/README.md are made here. To write them anew: EBBLINE_WRITE=1 in the
// environment of this test.
#include "drawn.h"
#include "marked.h"
#include "runs.h"

#include "ebbline/rules.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace ebbline;
using installation::Key;
using installation::KeyClass;

namespace {

std::string section(const std::string& name, const std::string& made) {
    return marked::section("scenes/README.md", name, made);
}

/// All but headroom, which the outcome says, and breaking capacity, which a blade fuse near a
/// battery nearly always breaks.
std::string brokenRules(const Installation& drawn, const Examination& found) {
    const Catalogues& catalogues = file::embeddedModels().catalogues;
    const Evidence evidence{.start = found.start,
                            .held_off = found.held_off ? &*found.held_off : nullptr,
                            .verdict = found.verdict};
    std::string names;
    for (const RuleFinding& finding :
         verdict::judgeRules(network::build(drawn, catalogues), catalogues, evidence, {}))
        if (finding.state == RuleState::Broken && finding.rule != "headroom" &&
            finding.rule != "breaking-capacity")
            names += (names.empty() ? "" : ", ") + finding.rule;
    return names.empty() ? "-" : names;
}

std::string sceneRow(const std::string& name, const Installation& drawn) {
    const Examination found = runs::examineBriefly(drawn);
    std::string largest = "-";
    if (found.start.ledger) {
        // The first of equals: the two cores of a cable differ by less than a run is accurate to.
        const LedgerRow* most = &found.start.ledger->rows.front();
        for (const LedgerRow& row : found.start.ledger->rows)
            if (row.volts > most->volts + 1e-3)
                most = &row;
        largest = "`" + most->element + "` " + text::fixed(most->volts, 2) + " V";
    }
    return "| " + name + " | " + std::string(nameOf(found.start.outcome)) + " | " +
           std::string(nameOf(found.verdict.margin)) + " | " +
           text::fixed(found.start.lowest_v, 2) + " | " + text::fixed(found.verdict.headroom_v, 2) +
           " | " + largest + " | " + brokenRules(drawn, found) + " |\n";
}

std::string unitOf(std::string_view key) {
    static const std::map<std::string_view, std::string_view> units{{"v", "V"},
                                                                    {"a", "A"},
                                                                    {"ohm", "ohm"},
                                                                    {"mohm", "mohm"},
                                                                    {"w", "W"},
                                                                    {"ah", "Ah"},
                                                                    {"m", "m"},
                                                                    {"mm", "mm"},
                                                                    {"mm2", "mm2"},
                                                                    {"s", "s"},
                                                                    {"c", "C"},
                                                                    {"pct", "%"},
                                                                    {"uf", "uF"},
                                                                    {"uh", "uH"},
                                                                    {"cm3", "cm3"},
                                                                    {"bar", "bar"},
                                                                    {"rpm", "1/min"},
                                                                    {"rad", "rad"}};
    const auto unit = units.find(key.substr(key.rfind('_') + 1));
    return unit == units.end() || key.find('_') == std::string_view::npos
               ? ""
               : std::string(unit->second);
}

std::string listed(const auto& values, const auto& write) {
    std::string out;
    for (const auto& value : values)
        out += (out.empty() ? "" : ", ") + write(value);
    return out;
}

std::string rangeOf(const Key& key) {
    if (key.type == installation::ValueType::Flag)
        return "true, false";
    if (key.type == installation::ValueType::Text)
        return key.words.empty() ? "text"
                                 : listed(key.words, [](auto word) { return std::string(word); });
    if (!key.choices.empty())
        return listed(key.choices, [](double choice) { return text::number(choice); });
    return text::number(key.min) + " to " + text::number(key.max) + (key.whole ? ", whole" : "");
}

std::string written(const std::optional<Value>& value) {
    if (!value)
        return "-";
    if (const auto* number = std::get_if<double>(&*value))
        return text::number(*number);
    if (const auto* flag = std::get_if<bool>(&*value))
        return *flag ? "true" : "false";
    return std::get<std::string>(*value);
}

/// Defaults of what is no part.
std::optional<Value> otherDefault(const Key& key) {
    const std::map<std::string, Value> defaults{
        {"surroundings.ambient_c", Surroundings{}.ambient_c},
        {"joint.kind", Joint{}.kind},
        {"joint.condition", Joint{}.condition},
        {"joint.connected", Joint{}.connected},
        {"panel-way.resistance_mohm", PanelWay{}.resistance_mohm},
        {"panel-way.closed", PanelWay{}.closed},
        {"run.spare_m", Run{}.spare_m},
        {"run.conductor", Core{}.conductor}};
    const auto found = defaults.find(std::string(key.kind) + "." + std::string(key.name));
    return found == defaults.end() ? std::nullopt : std::optional(found->second);
}

std::string keyRow(const Key& key) {
    const auto body = installation::makeBody(key.kind);
    const auto value = body ? installation::get({.body = *body}, key) : otherDefault(key);
    const char* name = key.key_class == KeyClass::Drawn     ? "drawn"
                       : key.key_class == KeyClass::Quality ? "quality"
                                                            : "state";
    return "| " + std::string(key.kind) + " | `" + std::string(key.name) + "` | " +
           unitOf(key.name) + " | " + rangeOf(key) + " | " + name + " | " + written(value) + " | " +
           std::string(key.meaning) + " |\n";
}

} // namespace

TEST_CASE("the table of scenes says what the simulation says", "[scenes][readme]") {
    std::string made =
        "| scene | outcome | margin | lowest V | to spare V | largest loss | broken |\n"
        "|---|---|---|---|---|---|---|\n";
    for (const std::string& name : drawn::sceneNames()) {
        const Installation drawn = drawn::scene(name);
        const std::string row = sceneRow("`" + name + "` " + drawn.title, drawn);
        made += row;
        for (const ChangeSet& condition : drawn.conditions)
            made += sceneRow("... `" + condition.id + "` " + condition.name,
                             installation::apply(drawn, condition.changes));
    }
    CHECK(section("scenes", made) == made);
}

TEST_CASE("the table of keys says what the list of keys says", "[readme]") {
    std::string made = "| of | key | unit | range | class | default | meaning |\n"
                       "|---|---|---|---|---|---|---|\n";
    for (const Key& key : installation::keys())
        made += keyRow(key);
    CHECK(section("keys", made) == made);
}
