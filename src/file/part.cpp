// SPDX-License-Identifier: MIT
// [[part]] blocks.
#include "reading.h"

#include "ebbline/text.h"

#include <algorithm>
#include <set>

namespace ebbline::file {
namespace {

std::optional<Body> takeBody(Reading& reading, Fields& fields) {
    const auto kind = fields.requireText("kind");
    if (!kind)
        return std::nullopt;
    auto body = installation::makeBody(*kind);
    const toml::source_region& where = fields.take("kind")->source();
    if (std::ranges::find(later_kinds, *kind) != later_kinds.end())
        reading.problems.add(where, "kind '" + *kind + "' is not supported yet by this version");
    else if (!body)
        reading.problems.addUnknown(where, "kind", *kind, installation::kinds());
    return body;
}

/// Keys of the catalogue entry that the part names.
void takeModel(Reading& reading, Fields& fields, Part& part) {
    part.model = fields.takeText("model");
    if (part.model.empty())
        return;
    const std::string kind(installation::kindOf(part));
    static const std::map<std::string, std::map<std::string, Value>> none;
    const auto of_kind = reading.catalogues.parts.find(kind);
    const auto& models = of_kind == reading.catalogues.parts.end() ? none : of_kind->second;
    const auto model = models.find(part.model);
    if (model == models.end()) {
        reading.problems.addUnknown(
            fields.take("model")->source(), kind + " model", part.model, namesOf(models));
        return;
    }
    for (const auto& [name, value] : model->second)
        installation::set(part, *installation::findKey(kind, name), value);
}

void takeKeys(Reading& reading, Fields& fields, Part& part) {
    for (const installation::Key& key : installation::keys())
        if (key.kind == installation::kindOf(part))
            if (const toml::node* node = fields.take(key.name))
                if (const auto value = valueOf(*node, key, reading.problems))
                    installation::set(part, key, *value);
}

void takeStack(Reading& reading, Fields& fields, const std::string& id, Stud& stud) {
    const toml::node* node = fields.take("stack");
    if (node == nullptr)
        return;
    if (node->as_array() == nullptr) {
        reading.problems.add(node->source(), "'stack' wants an array of run ends, bottom to top");
        return;
    }
    for (const toml::node* entry : elements(*node))
        if (const auto lug = mentionOf(reading, *entry)) {
            stud.stack.push_back(lug->terminal);
            reading.stacks[id].push_back(*lug);
        }
}

/// Where a key stands, or its block where it was left out.
const toml::source_region& placeOf(Fields& fields, std::string_view key) {
    const toml::node* node = fields.take(key);
    return node == nullptr ? fields.table().source() : node->source();
}

/// A circuit model exists for every chemistry that the catalogue knows, and for no other.
void check(Reading& reading, Fields& fields, const Battery& battery) {
    std::set<std::string> known{Battery{}.chemistry};
    if (const auto models = reading.catalogues.parts.find("battery");
        models != reading.catalogues.parts.end())
        for (const auto& [name, values] : models->second)
            if (const auto value = values.find("chemistry"); value != values.end())
                known.insert(std::get<std::string>(value->second));
    if (!known.contains(battery.chemistry))
        reading.problems.addUnknown(placeOf(fields, "chemistry"),
                                    "chemistry",
                                    battery.chemistry,
                                    std::vector<std::string>(known.begin(), known.end()));
}

void check(Reading& reading, Fields& fields, const Fuse& fuse) {
    const auto& elements = reading.catalogues.fuses;
    if (fuse.resistance_mohm || elements.contains(fuse.rating_a))
        return;
    std::string ratings;
    for (const auto& [rating_a, mohm] : elements)
        ratings += text::number(rating_a) + ", ";
    reading.problems.add(placeOf(fields, "rating_a"),
                         "no fuse element of " + text::number(fuse.rating_a) +
                             " A in the catalogue, expected one of " + ratings +
                             "or its 'resistance_mohm'");
}

/// The unit's cut-in lies above its cut-out, and below the voltage at which it stays off.
void check(Reading& reading, Fields& fields, const Controller& unit) {
    const auto require = [&](const char* key, double value, const char* lower, double least) {
        if (value <= least)
            reading.problems.add(placeOf(fields, key),
                                 "'" + std::string(key) + "' is " + text::number(value) +
                                     ", expected more than '" + lower + "', " +
                                     text::number(least));
    };
    require("cut_in_v", unit.cut_in_v, "cut_out_v", unit.cut_out_v);
    require("cut_in_24_v", unit.cut_in_24_v, "cut_out_24_v", unit.cut_out_24_v);
    require("highest_v", unit.highest_v, "cut_in_v", unit.cut_in_v);
    require("highest_24_v", unit.highest_24_v, "cut_in_24_v", unit.cut_in_24_v);
}

template <class Other>
void check(Reading&, Fields&, const Other&) {}

} // namespace

void readPart(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    const auto id = takeId(reading, fields);
    const auto body = takeBody(reading, fields);
    reading.has_unread_parts |= !id || !body;
    if (!body)
        return; // which other keys may stand here is unknown
    Part part{.id = id.value_or(""), .body = *body};
    part.name = fields.takeText("name");
    part.note = fields.takeText("note");
    if (const toml::node* at = fields.take("at_m"))
        part.at_m = positionOf(*at, reading.problems);
    takeModel(reading, fields, part);
    takeKeys(reading, fields, part);
    if (auto* stud = std::get_if<Stud>(&part.body))
        takeStack(reading, fields, part.id, *stud);
    std::visit([&](const auto& read) { check(reading, fields, read); }, part.body);
    fields.finish("a part of kind '" + std::string(installation::kindOf(part)) + "'");
    if (id)
        reading.installation.parts.push_back(std::move(part));
}

} // namespace ebbline::file
