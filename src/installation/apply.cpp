// SPDX-License-Identifier: MIT
// Changes by path: who is meant, which key, and setting it.
#include "ebbline/error.h"
#include "ebbline/installation.h"
#include "ebbline/text.h"

#include <map>
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

/// Whether a run has an end or a core of that name: "twin.1.from", "twin.1".
bool hasEnd(const Run& run, const std::string& owner) {
    for (std::size_t i = 0; i < run.cores.size(); ++i)
        if (owner == run.endName(i, "from") || owner == run.endName(i, "to"))
            return true;
    return false;
}
bool hasCore(const Run& run, const std::string& owner) {
    for (std::size_t i = 0; i < run.cores.size(); ++i)
        if (owner == run.coreName(i))
            return true;
    return false;
}

/// Kind under which the list of keys holds an owner's keys; empty when nobody has that name.
std::string kindOfOwner(const Installation& installation, const std::string& owner) {
    static const std::map<std::string, std::string> words{{"surroundings", "surroundings"},
                                                          {"joints", "joint"},
                                                          {"runs", "run"},
                                                          {"batteries", "battery"}};
    if (const auto word = words.find(owner); word != words.end())
        return word->second;
    if (const Part* part = installation.findPart(owner))
        return std::string(kindOf(*part));
    const Run* run = installation.findRun(owner.substr(0, owner.find('.')));
    if (run == nullptr)
        return "";
    if (hasEnd(*run, owner))
        return "joint";
    return owner == run->id || hasCore(*run, owner) ? "run" : "";
}

std::vector<std::string> ownerNames(const Installation& installation) {
    std::vector<std::string> names{"surroundings", "joints", "runs", "batteries"};
    for (const Part& part : installation.parts)
        names.push_back(part.id);
    for (const Run& run : installation.runs) {
        names.push_back(run.id);
        for (std::size_t i = 0; i < run.cores.size(); ++i)
            for (const std::string& name :
                 {run.coreName(i), run.endName(i, "from"), run.endName(i, "to")})
                names.push_back(name);
    }
    return names;
}

std::string meant(std::string_view word, const std::vector<std::string>& names) {
    const auto nearest = text::findNearest(word, names);
    return nearest ? ", did you mean '" + *nearest + "'" : "";
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
    if (const Key* key = findKey(kind, name)) {
        if (kind == "run" && owner.find('.') != std::string::npos && !isOfCore(name))
            refuse("'" + owner + "' is one core, '" + name + "' belongs to the whole run '" +
                   owner.substr(0, owner.find('.')) + "'");
        return *key;
    }
    std::vector<std::string> names;
    for (const Key& key : keys())
        if (key.kind == kind)
            names.emplace_back(key.name);
    refuse("'" + owner + "' has no key '" + name + "'" + meant(name, names));
}

Installation apply(Installation installation, std::span<const Change> changes) {
    for (const Change& one : changes) {
        const Key& key = findTarget(installation, one.path);
        if (const auto misfit = findMisfit(key, one.value))
            refuse("'" + one.path + "' " + *misfit);
        change(installation, split(one.path).first, key, one.value);
    }
    return installation;
}

} // namespace ebbline::installation
