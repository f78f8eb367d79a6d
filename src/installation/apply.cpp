// SPDX-License-Identifier: MIT
// Changes by path: who is meant, which key, and setting it.
#include "ebbline/error.h"
#include "ebbline/installation.h"
#include "ebbline/text.h"

#include <algorithm>
#include <array>
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
        refuse("'" + path + "' names no key, expected owner.key");
    return {path.substr(0, dot), path.substr(dot + 1)};
}

/// Cores that an owner names: "twin" all of its cores, "twin.2" one.
std::vector<Core*> coresOf(Installation& installation, std::string_view owner) {
    std::vector<Core*> cores;
    for (Run& run : installation.runs)
        for (std::size_t i = 0; i < run.cores.size(); ++i)
            if (owner == "runs" || owner == run.id || owner == run.coreName(i))
                cores.push_back(&run.cores[i]);
    return cores;
}

/// Joints that an owner names: "joints" all, "twin.1.from" one.
std::vector<Joint*> jointsOf(Installation& installation, std::string_view owner) {
    std::vector<Joint*> joints;
    for (Run& run : installation.runs)
        for (std::size_t i = 0; i < run.cores.size(); ++i) {
            if (owner == "joints" || owner == run.endName(i, "from"))
                joints.push_back(&run.cores[i].joint_from);
            if (owner == "joints" || owner == run.endName(i, "to"))
                joints.push_back(&run.cores[i].joint_to);
        }
    return joints;
}

std::vector<Part*> partsOf(Installation& installation, std::string_view owner) {
    std::vector<Part*> parts;
    for (Part& part : installation.parts)
        if (owner == part.id || (owner == "batteries" && kindOf(part) == "battery"))
            parts.push_back(&part);
    return parts;
}

std::vector<Run*> runsOf(Installation& installation, std::string_view owner) {
    std::vector<Run*> runs;
    for (Run& run : installation.runs)
        if (owner == "runs" || owner == run.id)
            runs.push_back(&run);
    return runs;
}

/// Kind under which the list of keys holds an owner's keys; empty when nobody has that name.
std::string kindOfOwner(const Installation& installation, const std::string& owner) {
    Installation copy = installation;
    if (owner == "surroundings")
        return owner;
    if (owner == "joints" || !jointsOf(copy, owner).empty())
        return "joint";
    if (owner == "runs" || !coresOf(copy, owner).empty())
        return "run";
    if (owner == "batteries")
        return "battery";
    const Part* part = installation.findPart(owner);
    return part == nullptr ? "" : std::string(kindOf(*part));
}

std::vector<std::string> ownerNames(const Installation& installation) {
    std::vector<std::string> names{"surroundings", "joints", "runs", "batteries"};
    for (const Part& part : installation.parts)
        names.push_back(part.id);
    for (const Run& run : installation.runs) {
        names.push_back(run.id);
        for (std::size_t i = 0; i < run.cores.size(); ++i)
            for (const char* end : {"from", "to"})
                names.push_back(run.endName(i, end));
    }
    return names;
}

std::string meant(std::string_view word, const std::vector<std::string>& names) {
    const auto nearest = text::findNearest(word, names);
    return nearest ? ", did you mean '" + *nearest + "'" : "";
}

void requireFits(const std::string& path, const Key& key, const Value& value) {
    static constexpr std::array wanted{"a number", "true or false", "a text"};
    if (value.index() != static_cast<std::size_t>(key.type))
        refuse("'" + path + "' wants " + wanted.at(static_cast<std::size_t>(key.type)));
    if (const auto* number = std::get_if<double>(&value))
        if (!(*number >= key.min && *number <= key.max))
            refuse("'" + path + "' is " + text::number(*number) + ", expected " +
                   text::number(key.min) + " to " + text::number(key.max));
}

void setJoint(Joint& joint, std::string_view key, const Value& value) {
    if (key == "kind")
        joint.kind = std::get<std::string>(value);
    else if (key == "condition") {
        joint.condition = std::get<std::string>(value);
        joint.resistance_mohm.reset(); // a stated resistance would hide the new condition
    } else
        joint.resistance_mohm = std::get<double>(value);
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
    const double number = std::get<double>(value);
    if (key == "length_m")
        run.length_m = number;
    else if (key == "spare_m")
        run.spare_m = number;
    else
        run.inductance_uh = number;
}

bool isOfCore(std::string_view key) {
    return key == "conductor" || key == "area_mm2" || key == "awg" || key == "sae";
}

void change(Installation& installation,
            const std::string& owner,
            const Key& key,
            const Value& value) {
    if (owner == "surroundings")
        installation.surroundings.ambient_c = std::get<double>(value);
    if (key.kind == "joint")
        for (Joint* joint : jointsOf(installation, owner))
            setJoint(*joint, key.name, value);
    if (key.kind == "run" && isOfCore(key.name))
        for (Core* core : coresOf(installation, owner))
            setCore(*core, key.name, value);
    if (key.kind == "run" && !isOfCore(key.name))
        for (Run* run : runsOf(installation, owner))
            setRun(*run, key.name, value);
    for (Part* part : partsOf(installation, owner))
        set(*part, key, value);
}

} // namespace

const Key& findTarget(const Installation& installation, const std::string& path) {
    const auto [owner, name] = split(path);
    const std::string kind = kindOfOwner(installation, owner);
    if (kind.empty())
        refuse("nothing is called '" + owner + "'" + meant(owner, ownerNames(installation)));
    if (const Key* key = findKey(kind, name))
        return *key;
    std::vector<std::string> names;
    for (const Key& key : keys())
        if (key.kind == kind)
            names.emplace_back(key.name);
    refuse("a " + kind + " has no key '" + name + "'" + meant(name, names));
}

Installation apply(Installation installation, std::span<const Change> changes) {
    for (const Change& one : changes) {
        const Key& key = findTarget(installation, one.path);
        requireFits(one.path, key, one.value);
        change(installation, split(one.path).first, key, one.value);
    }
    return installation;
}

} // namespace ebbline::installation
