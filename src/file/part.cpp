// SPDX-License-Identifier: MIT
// [[part]] blocks.
#include "reading.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

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
    if (!body)
        reading.problems.addUnknown(where, phrase("unknown kind {}"), *kind, installation::kinds());
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
        reading.problems.addMeant(fields.take("model")->source(),
                                  words("unknown {} model {}", kind, inQuotes(part.model)),
                                  part.model,
                                  namesOf(models));
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

/// The joints of the part's own: joint_sleeve, joint_plus, joint_lug.
void takeJoints(Reading& reading, Fields& fields, Part& part) {
    for (const auto& [name, joint] : installation::jointsOf(part)) {
        const std::string key = "joint_" + name.substr(part.id.size() + 1);
        if (const toml::node* node = fields.take(key))
            *joint = jointOf(reading, *node, key, reading.problems, *joint);
    }
}

void takeStack(Reading& reading, Fields& fields, const std::string& id, Stud& stud) {
    const toml::node* node = fields.take("stack");
    if (node == nullptr)
        return;
    if (node->as_array() == nullptr) {
        reading.problems.add(node->source(),
                             words("'stack' wants an array of run ends, bottom to top"));
        return;
    }
    for (const toml::node* entry : elements(*node))
        if (const auto lug = mentionOf(reading, *entry)) {
            stud.stack.push_back(lug->terminal);
            reading.stacks[id].push_back(*lug);
        }
}

void takeOwn(Reading& reading, Fields& fields, Part& part, Panel& panel) {
    for (const installation::Key& key : installation::keys()) {
        if (key.kind != "panel-way")
            continue;
        const auto nodes = fields.takeEach(
            key.name,
            panel.ways.size(),
            phrase("'{}' has {} values, expected one, or one for each of {} ways of '{}'"),
            part.id);
        std::optional<Value> value;
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            if (i == 0 || nodes[i] != nodes[0]) // one for all is complained of only once
                value = valueOf(*nodes[i], key, reading.problems);
            if (value && key.name == "closed")
                panel.ways[i].closed = std::get<bool>(*value);
            else if (value)
                panel.ways[i].resistance_mohm = std::get<double>(*value);
        }
    }
}

void takeOwn(Reading& reading, Fields& fields, Part&, Bond& bond) {
    if (const auto to = fields.requireText("to")) {
        bond.to = *to;
        reading.bonds.emplace_back(*to, fields.take("to")->source());
    }
}

void takeOwn(Reading& reading, Fields& fields, Part&, Meter& meter) {
    const auto lead = [&](const char* key, Terminal& terminal) {
        const toml::node* node = fields.take(key);
        if (node == nullptr) {
            reading.problems.add(fields.table().source(), words("a meter wants '{}'", key));
        } else if (const auto mention = mentionOf(reading, *node)) {
            terminal = mention->terminal;
            reading.meter_leads.push_back(*mention);
        }
    };
    lead("plus", meter.plus);
    lead("minus", meter.minus);
}

void takeOwn(Reading& reading, Fields& fields, Part& part, Stud& stud) {
    takeStack(reading, fields, part.id, stud);
}

template <class Other>
void takeOwn(Reading&, Fields&, Part&, Other&) {}

/// Where a key stands, or its block where it was left out.
const toml::source_region& placeOf(Fields& fields, std::string_view key) {
    const toml::node* node = fields.take(key);
    return node == nullptr ? fields.table().source() : node->source();
}

void check(Reading& reading, Fields& fields, const Battery& battery) {
    const auto& known = reading.catalogues.chemistries;
    if (!known.contains(battery.chemistry))
        reading.problems.addUnknown(placeOf(fields, "chemistry"),
                                    phrase("unknown chemistry {}"),
                                    battery.chemistry,
                                    namesOf(known));
}

/// `misfit` is said of a rating that no fuse has, with those there are.
void checkRating(Reading& reading,
                 Fields& fields,
                 const std::string& style,
                 double rating_a,
                 const char* misfit) {
    const auto& styles = reading.catalogues.fuses;
    const auto elements = styles.find(style);
    std::string ratings;
    if (elements != styles.end())
        for (const auto& [known_a, mohm] : elements->second) {
            if (known_a == rating_a)
                return;
            ratings += (ratings.empty() ? "" : ", ") + text::number(known_a);
        }
    reading.problems.add(placeOf(fields, "rating_a"),
                         words(misfit, text::number(rating_a), ratings));
}

void check(Reading& reading, Fields& fields, const Fuse& fuse) {
    if (!fuse.resistance_mohm)
        checkRating(reading,
                    fields,
                    fuse.style,
                    fuse.rating_a,
                    phrase("no fuse element of {} A in the catalogue, expected one of {}, or its "
                           "'resistance_mohm'"));
}

void check(Reading& reading, Fields& fields, const BenchLeads& leads) {
    checkRating(reading,
                fields,
                "blade",
                leads.rating_a,
                phrase("no fuse element of {} A in the catalogue, expected one of {}"));
    const auto sizes = reading.catalogues.conductors.find(BenchLeads::conductor);
    if (sizes != reading.catalogues.conductors.end() && !sizes->second.contains(leads.area_mm2))
        reading.problems.add(placeOf(fields, "area_mm2"),
                             noSize(BenchLeads::conductor, leads.area_mm2, sizes->second));
}

void check(Reading& reading, Fields& fields, const Chassis& chassis) {
    if (!chassis.spread_mohm && !reading.catalogues.chassis.contains(chassis.material))
        reading.problems.addUnknown(placeOf(fields, "material"),
                                    phrase("unknown chassis material {}"),
                                    chassis.material,
                                    namesOf(reading.catalogues.chassis));
}

/// The unit's cut-in lies above its cut-out, and below the voltage at which it stays off.
void check(Reading& reading, Fields& fields, const Controller& unit) {
    const auto require = [&](const char* key, double value, const char* lower, double least) {
        if (value <= least)
            reading.problems.add(placeOf(fields, key),
                                 words("'{}' is {}, expected more than '{}', {}",
                                       key,
                                       text::number(value),
                                       lower,
                                       text::number(least)));
    };
    require("cut_in_v", unit.cut_in_v, "cut_out_v", unit.cut_out_v);
    require("cut_in_24_v", unit.cut_in_24_v, "cut_out_24_v", unit.cut_out_24_v);
    require("highest_v", unit.highest_v, "cut_in_v", unit.cut_in_v);
    require("highest_24_v", unit.highest_24_v, "cut_in_24_v", unit.cut_in_24_v);
}

template <class Other>
void check(Reading&, Fields&, const Other&) {}

} // namespace

std::optional<Part> takePart(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    const auto id = takeId(reading, fields);
    const auto body = takeBody(reading, fields);
    reading.has_unread_parts |= !id || !body;
    if (!body) {
        if (id)
            reading.unread.insert(*id);
        return std::nullopt; // which other keys may stand here is unknown
    }
    Part part{.id = id.value_or(""), .body = *body};
    part.name = fields.takeText("name");
    part.note = fields.takeText("note");
    if (const toml::node* at = fields.take("at_m"))
        part.at_m = positionOf(*at, reading.problems);
    takeModel(reading, fields, part);
    takeKeys(reading, fields, part);
    takeJoints(reading, fields, part);
    std::visit([&](auto& own) { takeOwn(reading, fields, part, own); }, part.body);
    std::visit([&](const auto& read) { check(reading, fields, read); }, part.body);
    fields.finish(phrase("unknown key {} in a part of kind '{}'"), installation::kindOf(part));
    return id ? std::optional(std::move(part)) : std::nullopt;
}

} // namespace ebbline::file
