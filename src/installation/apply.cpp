// SPDX-License-Identifier: MIT
// Making changes: setting keys, taking off, bridging, placing, removing.
#include "owners.h"

#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <utility>

namespace ebbline::installation {
namespace {

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

/// Owner and key of a path: everything before the last dot, and what is behind it.
std::pair<std::string, std::string> split(const std::string& path) {
    const std::size_t dot = path.rfind('.');
    if (dot == std::string::npos)
        refuse(words("{} names no key, expected owner.key", text::inQuotes(path)));
    return {path.substr(0, dot), path.substr(dot + 1)};
}

/// The message, and what may be meant by a word that is none of the names.
[[noreturn]] void
refuse(const std::string& message, std::string_view word, const std::vector<std::string>& names) {
    const auto nearest = text::findNearest(word, names);
    refuse(nearest ? words("{}, did you mean {}", message, text::inQuotes(*nearest)) : message);
}

/// The key of that kind; what is said of a whole panel may be said of its switches.
const Key* findKeyOf(const std::string& kind, const std::string& name) {
    const Key* key = findKey(kind, name);
    return key == nullptr && kind == "panel" ? findKey("panel-way", name) : key;
}

void setJoint(Joint& joint, std::string_view key, const Value& value) {
    if (key == "kind")
        joint.kind = std::get<std::string>(value);
    else if (key == "condition") {
        // A stated resistance would hide the new condition, and so would film and looseness.
        for (const JointNumber& number : jointNumbers())
            number.set(joint, std::nullopt);
        joint.condition = std::get<std::string>(value);
    } else if (key == "connected")
        joint.connected = std::get<bool>(value);
    else
        for (const JointNumber& number : jointNumbers())
            if (number.name == key)
                number.set(joint, std::get<double>(value));
}

void setCore(Core& core, std::string_view key, const Value& value) {
    if (key == "conductor")
        core.conductor = std::get<std::string>(value);
    else
        core.size = {key == "awg"   ? SizeScale::Awg
                     : key == "sae" ? SizeScale::Sae
                                    : SizeScale::Mm2,
                     std::get<double>(value)};
}

void setRun(Run& run, std::string_view key, const Value& value) {
    for (const RunNumber& number : runNumbers())
        if (number.name == key)
            number.set(run, std::get<double>(value));
}

void setWay(PanelWay& way, std::string_view key, const Value& value) {
    if (key == "closed")
        way.closed = std::get<bool>(value);
    else
        way.resistance_mohm = std::get<double>(value);
}

bool isOfCore(std::string_view key) {
    return key == "conductor" || key == "area_mm2" || key == "awg" || key == "sae";
}

void setKey(Installation& installation,
            const std::string& owner,
            const Key& key,
            const Value& value) {
    if (key.kind == "surroundings")
        installation.surroundings.ambient_c = std::get<double>(value);
    else if (key.kind == "joint")
        for (Joint* joint : jointsOf(installation, owner))
            setJoint(*joint, key.name, value);
    else if (key.kind == "panel-way")
        for (PanelWay* way : waysOf(installation, owner))
            setWay(*way, key.name, value);
    else if (key.kind == "run" && isOfCore(key.name))
        for (Core* core : coresOf(installation, owner))
            setCore(*core, key.name, value);
    else if (key.kind == "run")
        for (Run* run : runsOf(installation, owner))
            setRun(*run, key.name, value);
    else
        for (Part* part : partsOf(installation, owner))
            set(*part, key, value);
}

void make(Installation& installation, const Set& change) {
    const Key& key = findTarget(installation, change.path);
    if (const auto misfit = findMisfit(key, change.value, text::inQuotes(change.path)))
        refuse(*misfit);
    setKey(installation, split(change.path).first, key, change.value);
}

void make(Installation& installation, const Open& change) {
    if (findKind(installation, change.joint) != "joint")
        refuse(words("no joint is called {}", text::inQuotes(change.joint)),
               change.joint,
               ownerNames(installation));
    make(installation, Set{change.joint + ".connected", false});
}

void make(Installation& installation, const Bridge& change) {
    constexpr double length_m = 0.2;
    int number = 1;
    while (installation.findRun("bridge-" + std::to_string(number)) != nullptr)
        ++number;
    const Joint clip{.kind = "clip"};
    installation.runs.push_back(
        {.id = "bridge-" + std::to_string(number),
         .cores = {{.from = change.from, .to = change.to, .joint_from = clip, .joint_to = clip}},
         .length_m = length_m});
}

void make(Installation& installation, const Place& change) {
    if (const auto* part = std::get_if<Part>(&change.what))
        installation.parts.push_back(*part);
    else
        installation.runs.push_back(std::get<Run>(change.what));
}

void make(Installation& installation, const Remove& change) {
    const auto is_meant = [&](const auto& thing) { return thing.id == change.id; };
    if (std::erase_if(installation.parts, is_meant) + std::erase_if(installation.runs, is_meant) ==
        0)
        refuse(words("no part or run is called {}", text::inQuotes(change.id)),
               change.id,
               ownerNames(installation));
}

bool isOfWiring(const Change& change) {
    return !std::holds_alternative<Set>(change) && !std::holds_alternative<Open>(change);
}

} // namespace

const Key& findTarget(const Installation& installation, const std::string& path) {
    const auto [owner, name] = split(path);
    const auto kind = findKind(installation, owner);
    if (!kind)
        refuse(
            words("nothing is called {}", text::inQuotes(owner)), owner, ownerNames(installation));
    if (const Key* key = findKeyOf(*kind, name)) {
        if (kind == "run" && owner.find('.') != std::string::npos && !isOfCore(name))
            refuse(words("{} is one core, {} belongs to the whole run {}",
                         text::inQuotes(owner),
                         text::inQuotes(name),
                         text::inQuotes(owner.substr(0, owner.find('.')))));
        return *key;
    }
    std::vector<std::string> names;
    for (const Key& key : keys())
        if (key.kind == *kind || (kind == "panel" && key.kind == "panel-way"))
            names.emplace_back(key.name);
    refuse(words("{} has no key {}", text::inQuotes(owner), text::inQuotes(name)), name, names);
}

Installation apply(Installation installation, std::span<const Change> changes) {
    for (const Change& change : changes)
        std::visit([&](const auto& one) { make(installation, one); }, change);
    if (std::ranges::any_of(changes, isOfWiring))
        if (const auto broken = findBrokenWiring(installation))
            refuse(*broken);
    return installation;
}

std::vector<Change> faultChanges(const Installation& installation) {
    std::vector<Change> changes;
    for (const Fault& fault : installation.faults)
        changes.insert(changes.end(), fault.set.begin(), fault.set.end());
    return changes;
}

} // namespace ebbline::installation
