// SPDX-License-Identifier: MIT
// Edits of what was drawn, text aside.
#include "edit_state.h"

#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <optional>

namespace ebbline::file {
namespace {

using installation::Key;

/// The thing of that id; null for none.
template <class Thing>
Thing* findIn(std::vector<Thing>& things, const std::string& id) {
    const auto place = std::ranges::find(things, id, &Thing::id);
    return place == things.end() ? nullptr : &*place;
}

void reset(Part& part, const Key& key, const Part& bare) {
    if (const auto value = installation::get(bare, key))
        installation::set(part, key, *value);
    else if (auto* battery = std::get_if<Battery>(&part.body))
        battery->temperature_c.reset();
    else if (auto* fuse = std::get_if<Fuse>(&part.body))
        fuse->resistance_mohm.reset();
    else if (auto* chassis = std::get_if<Chassis>(&part.body))
        chassis->spread_mohm.reset();
}

void reset(Joint& joint, std::string_view key, const Joint& bare) {
    if (key == "kind")
        joint.kind = bare.kind;
    else if (key == "condition")
        joint.condition = bare.condition;
    else if (key == "connected")
        joint.connected = bare.connected;
    else
        for (const installation::JointNumber& number : installation::jointNumbers())
            if (number.name == key)
                number.set(joint, number.of(bare));
}

void resetJoint(const installation::NamedJoint& joint, const Cleared& what, const Joint& bare) {
    if (what.hits(joint.name, "joints", what.key))
        reset(*joint.joint, what.key, bare);
}

void clear(Part& part, const Cleared& what, const Catalogues& catalogues) {
    Part bare = installation::bareOf(part, catalogues);
    const auto kind = installation::kindOf(part);
    const char* group = kind == "battery" ? "batteries" : "";
    const Key* key = installation::findKey(kind, what.key);
    if (key != nullptr && what.hits(part.id, group, what.key))
        reset(part, *key, bare);
    const auto joints = installation::jointsOf(part);
    const auto bare_joints = installation::jointsOf(bare);
    for (std::size_t i = 0; i < joints.size(); ++i)
        resetJoint(joints[i], what, *bare_joints[i].joint);
    auto* panel = std::get_if<Panel>(&part.body);
    for (std::size_t i = 0; panel != nullptr && i < panel->ways.size(); ++i) {
        if (!what.hits(part.id + "." + std::to_string(i + 1), part.id, what.key))
            continue;
        if (what.key == "closed")
            panel->ways[i].closed = PanelWay{}.closed;
        else if (what.key == "resistance_mohm")
            panel->ways[i].resistance_mohm = PanelWay{}.resistance_mohm;
    }
}

void clear(Run& run, const Cleared& what) {
    for (const auto& joint : installation::jointsOf(run))
        resetJoint(joint, what, Joint{});
    for (const installation::RunNumber& number : installation::runNumbers())
        if (what.hits(run.id, "runs", number.name))
            number.set(run, std::nullopt);
    for (std::size_t i = 0; i < run.cores.size(); ++i)
        if (what.hits(run.coreName(i), "runs", "conductor") ||
            what.hits(run.id, "runs", "conductor"))
            run.cores[i].conductor = Core{}.conductor;
}

/// Name or note of the thing of that id; null where it has none.
std::string* findText(Installation& scene, const std::string& id, std::string_view key) {
    if (Part* part = findIn(scene.parts, id))
        return key == "name" ? &part->name : &part->note;
    if (Run* run = findIn(scene.runs, id))
        return key == "name" ? &run->name : &run->note;
    if (key != "name")
        return nullptr;
    for (auto* sets : {&scene.conditions, &scene.variants, &scene.setups})
        if (ChangeSet* set = findIn(*sets, id))
            return &set->name;
    if (Way* way = findIn(scene.ways, id))
        return &way->name;
    KeepOut* keep_out = findIn(scene.keep_outs, id);
    return keep_out == nullptr ? nullptr : &keep_out->name;
}

} // namespace

void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

Installation cleared(Installation scene, const Cleared& what, const Catalogues& catalogues) {
    if (what.owner == "surroundings")
        scene.surroundings = Surroundings{};
    for (Part& part : scene.parts)
        clear(part, what, catalogues);
    for (Run& run : scene.runs)
        clear(run, what);
    return scene;
}

Installation retexted(Installation scene, const Retext& edit) {
    if (edit.path == "title") {
        scene.title = edit.text;
        return scene;
    }
    if (edit.path == "note") {
        scene.note = edit.text;
        return scene;
    }
    const std::size_t dot = std::min(edit.path.find('.'), edit.path.size());
    const std::string key = edit.path.substr(std::min(dot + 1, edit.path.size()));
    std::string* text =
        key == "name" || key == "note" ? findText(scene, edit.path.substr(0, dot), key) : nullptr;
    if (text == nullptr)
        refuse(words("{} is no free text, expected title, note, <id>.name or <id>.note",
                     text::inQuotes(edit.path)));
    *text = edit.text;
    return scene;
}

Installation moved(Installation scene, const Move& edit) {
    Part* part = findIn(scene.parts, edit.id);
    if (part == nullptr)
        refuse(words("no part is called {}", text::inQuotes(edit.id)));
    part->at_m = edit.at_m;
    return scene;
}

Installation rerouted(Installation scene, const Reroute& edit) {
    if (Run* run = findIn(scene.runs, edit.id))
        run->route_m = edit.places_m;
    else if (Way* way = findIn(scene.ways, edit.id))
        way->line_m = edit.places_m;
    else if (KeepOut* keep_out = findIn(scene.keep_outs, edit.id))
        keep_out->outline_m = edit.places_m;
    else
        refuse(words("no run, way or keep-out is called {}", text::inQuotes(edit.id)));
    return scene;
}

Installation amended(Installation scene, const Amend& edit) {
    if (const Run* run = std::get_if<Run>(&edit.what)) {
        Run* old = findIn(scene.runs, run->id);
        if (old == nullptr)
            refuse(words("no run is called {}", text::inQuotes(run->id)));
        if (run->cores.empty())
            refuse(words("{} has no core, expected at least one", text::inQuotes(run->id)));
        *old = *run;
        return scene;
    }
    const Part& part = std::get<Part>(edit.what);
    Part* old = findIn(scene.parts, part.id);
    if (old == nullptr)
        refuse(words("no part is called {}", text::inQuotes(part.id)));
    if (old->body.index() != part.body.index())
        refuse(words("{} is of kind {}, expected the same",
                     text::inQuotes(part.id),
                     installation::kindOf(*old)));
    *old = part;
    return scene;
}

} // namespace ebbline::file
