// SPDX-License-Identifier: MIT
// assets/scene.schema.json, by which editors complete and check scenes, is made here from the list
// of keys. To write it anew: EBBLINE_WRITE=1 in the environment of this test.
#include "ebbline/file.h"
#include "ebbline/installation.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <fstream>

using namespace ebbline;
using installation::Key;
using Json = nlohmann::ordered_json;

namespace {

const Json text{{"type", "string"}};
const Json texts{{"type", "array"}, {"items", text}};

Json reference(const std::string& name) {
    return {{"$ref", "#/$defs/" + name}};
}

Json arrayOf(const Json& items, std::size_t least = 0) {
    return {{"type", "array"}, {"items", items}, {"minItems", least}};
}

Json oneOrEach(const Json& value) {
    return {{"oneOf", {value, arrayOf(value)}}};
}

Json typeOf(const Key& key) {
    Json type;
    if (key.type == installation::ValueType::Flag)
        type = {{"type", "boolean"}};
    else if (key.type == installation::ValueType::Text)
        type = text;
    else if (key.choices.empty())
        type = {
            {"type", key.whole ? "integer" : "number"}, {"minimum", key.min}, {"maximum", key.max}};
    if (!key.words.empty())
        type["enum"] = std::vector<std::string>(key.words.begin(), key.words.end());
    if (!key.choices.empty())
        type["enum"] = std::vector<double>(key.choices.begin(), key.choices.end());
    type["description"] = key.meaning;
    return type;
}

/// A gauge may also be written "2/0".
Json sizeOf(const Key& key) {
    if (key.name == "area_mm2")
        return typeOf(key);
    return {{"oneOf", {typeOf(key), {{"enum", {"1/0", "2/0", "3/0", "4/0"}}}}}};
}

Json object(Json properties, const std::vector<std::string>& required) {
    return {{"type", "object"},
            {"properties", std::move(properties)},
            {"required", required},
            {"patternProperties", {{"^x-", Json::object()}}},
            {"additionalProperties", false}};
}

void addKeys(Json& properties, std::string_view kind, const auto& write) {
    for (const Key& key : installation::keys())
        if (key.kind == kind)
            properties[std::string(key.name)] = write(key);
}

Json jointBlock() {
    Json properties;
    addKeys(properties, "joint", typeOf);
    return {{"oneOf", {text, object(properties, {})}}};
}

Json partBlock(const std::string& kind) {
    Json properties{{"id", reference("id")},
                    {"kind", {{"const", kind}}},
                    {"name", text},
                    {"note", text},
                    {"model", text},
                    {"at_m", reference("place")}};
    addKeys(properties, kind, typeOf);
    Part part{.id = "part", .body = installation::makeBody(kind).value()};
    for (const auto& [name, joint] : installation::jointsOf(part))
        properties["joint_" + name.substr(5)] = reference("joint");
    std::vector<std::string> required{"id", "kind"};
    if (kind == "panel")
        addKeys(properties, "panel-way", [](const Key& key) { return oneOrEach(typeOf(key)); });
    if (kind == "stud")
        properties["stack"] = arrayOf(reference("terminal"));
    if (kind == "bond") {
        properties["to"] = reference("id");
        required.emplace_back("to");
    }
    if (kind == "meter")
        for (const char* lead : {"plus", "minus"}) {
            properties[lead] = reference("terminal");
            required.emplace_back(lead);
        }
    return object(properties, required);
}

Json runBlock() {
    Json properties{{"id", reference("id")},
                    {"name", text},
                    {"note", text},
                    {"from", oneOrEach(reference("terminal"))},
                    {"to", oneOrEach(reference("terminal"))},
                    {"route_m", arrayOf(reference("place"), 2)}};
    addKeys(properties, "run", [](const Key& key) {
        const bool is_size = key.name == "awg" || key.name == "sae" || key.name == "area_mm2";
        return is_size || key.name == "conductor" ? oneOrEach(sizeOf(key)) : typeOf(key);
    });
    for (const char* joint : {"joint_from", "joint_to"})
        properties[joint] = oneOrEach(reference("joint"));
    Json block = object(properties, {"id", "from", "to"});
    for (const char* size : {"area_mm2", "awg", "sae"})
        block["oneOf"].push_back({{"required", {size}}});
    for (const char* length : {"length_m", "route_m"})
        block["anyOf"].push_back({{"required", {length}}});
    return block;
}

Json changeSet(bool has_wiring, bool is_setup) {
    Json properties{{"id", reference("id")}, {"name", text}, {"set", reference("set")}};
    if (has_wiring) {
        properties["remove"] = texts;
        properties["part"] = arrayOf(reference("part"));
        properties["run"] = arrayOf(reference("run"));
    }
    if (is_setup) {
        properties["open"] = texts;
        properties["bridge"] = arrayOf(arrayOf(reference("terminal"), 2));
    }
    return object(properties,
                  has_wiring ? std::vector<std::string>{"id"}
                             : std::vector<std::string>{"id", "set"});
}

Json faultBlock() {
    // Which keys may stand here depends on what the fault is on.
    return {{"type", "object"},
            {"properties", {{"on", text}, {"kind", text}}},
            {"required", {"on", "kind"}}};
}

Json spreadBlock() {
    const Json number{{"type", "number"}};
    Json properties{{"on", text}, {"law", {{"enum", {"normal", "log-normal", "uniform"}}}}};
    for (const char* name : {"mean", "deviation", "median", "sigma", "low", "high"})
        properties[name] = number;
    return object(properties, {"on", "law"});
}

Json definitions() {
    Json parts;
    for (const std::string& kind : installation::kinds())
        parts.push_back(partBlock(kind));
    const Json value{{"type", {"number", "boolean", "string"}}};
    return {{"id", {{"type", "string"}, {"pattern", "^[a-z][a-z0-9-]{0,39}$"}}},
            {"terminal", {{"type", "string"}, {"pattern", "^[a-z][a-z0-9-]*\\.[a-z0-9.-]+$"}}},
            {"place",
             {{"type", "array"},
              {"items", {{"type", "number"}, {"minimum", -1000}, {"maximum", 1000}}},
              {"minItems", 2},
              {"maxItems", 2}}},
            {"set", {{"type", "object"}, {"additionalProperties", value}}},
            {"joint", jointBlock()},
            {"part", {{"oneOf", parts}}},
            {"run", runBlock()}};
}

Json sceneSchema() {
    const Json temperature = typeOf(*installation::findKey("surroundings", "ambient_c"));
    const Json picture = object({{"file", text},
                                 {"at_m", reference("place")},
                                 {"width_m", {{"type", "number"}, {"minimum", 0.1}}}},
                                {"file"});
    const Json outline = arrayOf(reference("place"), 3);
    const Json event = object({{"at_s", {{"type", "number"}, {"minimum", 0}, {"maximum", 86400}}},
                               {"set", reference("set")}},
                              {"at_s", "set"});
    Json scene =
        object({{"ebbline", {{"const", 1}}},
                {"what", {{"const", "scene"}}},
                {"title", text},
                {"note", text},
                {"nominal_v", {{"enum", {12, 24}}}},
                {"rules", {{"enum", {"small-craft-iso", "small-craft-us", "vehicle-and-cabin"}}}},
                {"subject", reference("id")},
                {"use", texts},
                {"plan", object({{"outline_m", outline}, {"picture", picture}}, {})},
                {"surroundings", object({{"ambient_c", temperature}}, {})},
                {"part", arrayOf(reference("part"))},
                {"run", arrayOf(reference("run"))},
                {"condition", arrayOf(changeSet(false, false))},
                {"variant", arrayOf(changeSet(true, false))},
                {"setup", arrayOf(changeSet(true, true))},
                {"fault", arrayOf(faultBlock())},
                {"event", arrayOf(event)},
                {"spread", arrayOf(spreadBlock())},
                {"way",
                 arrayOf(object({{"id", reference("id")},
                                 {"name", text},
                                 {"line_m", arrayOf(reference("place"), 2)},
                                 {"ambient_c", temperature}},
                                {"id", "line_m"}))},
                {"keep-out",
                 arrayOf(object({{"id", reference("id")}, {"name", text}, {"outline_m", outline}},
                                {"id", "outline_m"}))}},
               {"ebbline"});
    Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                {"title", "A scene, format 1"}};
    schema.update(scene);
    schema["$defs"] = definitions();
    return schema;
}

} // namespace

TEST_CASE("the schema for editors says what the list of keys says", "[schema]") {
    const std::string path = std::string(EBBLINE_SOURCE_DIR) + "/assets/scene.schema.json";
    const std::string made = sceneSchema().dump(1) + "\n";
    if (std::getenv("EBBLINE_WRITE") != nullptr)
        std::ofstream(path, std::ios::binary) << made;
    CHECK(file::readBytes(path) == made);
}
