// SPDX-License-Identifier: MIT
// Catalogues and circuit texts, embedded or from a folder.
#include "fields.h"

#include "ebbline/embedded.h"
#include "ebbline/file.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <system_error>

namespace ebbline::file {
namespace {

constexpr double any = 1e9;

void readConductor(Fields& fields, Catalogues& catalogues) {
    const auto id = fields.requireText("id");
    const toml::node* rows = fields.take("mohm_per_m");
    if (!id || rows == nullptr || rows->as_array() == nullptr) {
        fields.problems().add(fields.table().source(),
                              "a conductor wants mohm_per_m = [[mm2, mohm/m], ...]");
        return;
    }
    for (const toml::node& row : *rows->as_array()) {
        const toml::array* pair = row.as_array();
        if (pair == nullptr || pair->size() != 2 || !(*pair)[0].is_number() ||
            !(*pair)[1].is_number()) {
            fields.problems().add(row.source(), "a size wants [mm2, mohm/m]");
            continue;
        }
        catalogues.conductors[*id][(*pair)[0].value_or(0.0)] = (*pair)[1].value_or(0.0);
    }
}

void readJoint(Fields& fields, Catalogues& catalogues) {
    const auto kind = fields.requireText("kind");
    for (const char* condition : {"new", "tired", "corroded", "loose"})
        if (const auto mohm = fields.takeNumber(std::string(condition) + "_mohm", 0, any);
            kind && mohm)
            catalogues.joints[*kind][condition] = *mohm;
}

void readElement(Fields& fields, Catalogues& catalogues) {
    const auto rating_a = fields.takeNumber("rating_a", 0, any);
    const auto mohm = fields.takeNumber("resistance_mohm", 0, any);
    if (rating_a && mohm)
        catalogues.fuses[*rating_a] = *mohm;
}

void readPart(Fields& fields, const std::string& kind, Catalogues& catalogues) {
    const auto id = fields.requireText("id");
    std::map<std::string, Value> values;
    for (const installation::Key& key : installation::keys())
        if (key.kind == kind)
            if (const toml::node* node = fields.take(key.name))
                if (const auto value = valueOf(*node, key, fields.problems()))
                    values[std::string(key.name)] = *value;
    if (id)
        catalogues.parts[kind][*id] = std::move(values);
}

void readCatalogue(const std::string& name, std::string_view text, Catalogues& catalogues) {
    const toml::table table = parse(name, text);
    Problems problems(name, text);
    Fields top(table, problems);
    if (top.takeNumber("ebbline", 1, 1) != 1 || top.takeText("what") != "parts")
        problems.add(table.source(), "a catalogue begins with ebbline = 1 and what = \"parts\"");
    const auto entries = [&](const char* key, const auto& read) {
        top.eachTable(key, [&](const toml::table& block) {
            Fields fields(block, problems);
            static_cast<void>(fields.requireText("source"));
            static_cast<void>(fields.requireText("certainty"));
            read(fields);
            fields.finish(std::string("[[") + key + "]]");
        });
    };
    entries("conductor", [&](Fields& fields) { readConductor(fields, catalogues); });
    entries("joint", [&](Fields& fields) { readJoint(fields, catalogues); });
    entries("fuse-element", [&](Fields& fields) { readElement(fields, catalogues); });
    for (const std::string& kind : installation::kinds())
        entries(kind.c_str(), [&](Fields& fields) { readPart(fields, kind, catalogues); });
    top.finish("a catalogue");
    problems.throwIfAny();
}

void add(const std::string& name, std::string text, Models& models) {
    if (name.ends_with(".lib"))
        models.circuits[name.substr(0, name.size() - 4)] = std::move(text);
    else if (name.ends_with(".toml"))
        readCatalogue(name, text, models.catalogues);
}

Models makeEmbedded() {
    Models models;
    for (const embedded::File& file : embedded::all())
        if (!file.name.starts_with("first-scene"))
            add(std::string(file.name), std::string(file.text), models);
    return models;
}

} // namespace

const Models& embeddedModels() {
    static const Models models = makeEmbedded();
    return models;
}

Models readModels(const std::filesystem::path& folder) {
    Models models;
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        paths.push_back(entry.path());
    std::ranges::sort(paths);
    for (const auto& path : paths)
        if (path.extension() == ".lib" || path.extension() == ".toml")
            add(path.filename().string(), readBytes(path), models);
    return models;
}

std::string_view embeddedScene() {
    return embedded::find("first-scene.toml");
}

std::string readBytes(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        throw std::system_error(
            errno, std::generic_category(), "cannot read '" + path.string() + "'");
    std::string bytes{std::istreambuf_iterator<char>(file), {}};
    if (file.bad())
        throw std::system_error(
            errno, std::generic_category(), "cannot read '" + path.string() + "'");
    return bytes;
}

} // namespace ebbline::file
