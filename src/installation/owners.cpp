// SPDX-License-Identifier: MIT
// Who is meant by the owner in a path.
#include "owners.h"

#include "ebbline/text.h"

#include <algorithm>
#include <map>

namespace ebbline::installation {
namespace {

/// "panel.2" -> way 2 of a panel, counted from 0; nothing for anything else.
std::optional<std::size_t> wayOf(const Part& part, const std::string& owner) {
    const auto* panel = std::get_if<Panel>(&part.body);
    if (panel == nullptr)
        return std::nullopt;
    for (std::size_t i = 0; i < panel->ways.size(); ++i)
        if (owner == part.id + "." + std::to_string(i + 1))
            return i;
    return std::nullopt;
}

bool hasCore(const Run& run, const std::string& owner) {
    for (std::size_t i = 0; i < run.cores.size(); ++i)
        if (owner == run.coreName(i))
            return true;
    return false;
}

template <class Thing>
bool hasJoint(Thing thing, const std::string& owner) {
    return std::ranges::any_of(jointsOf(thing),
                               [&](const NamedJoint& joint) { return joint.name == owner; });
}

std::optional<std::string> kindWithin(const Part& part, const std::string& owner) {
    if (owner == part.id)
        return std::string(kindOf(part));
    if (wayOf(part, owner))
        return "panel-way";
    return hasJoint(part, owner) ? std::optional<std::string>("joint") : std::nullopt;
}

std::optional<std::string> kindWithin(const Run& run, const std::string& owner) {
    if (owner == run.id || hasCore(run, owner))
        return "run";
    return hasJoint(run, owner) ? std::optional<std::string>("joint") : std::nullopt;
}

} // namespace

std::optional<std::string> findKind(const Installation& installation, const std::string& owner) {
    static const std::map<std::string, std::string> words{{"surroundings", "surroundings"},
                                                          {"joints", "joint"},
                                                          {"runs", "run"},
                                                          {"batteries", "battery"}};
    if (const auto word = words.find(owner); word != words.end())
        return word->second;
    const std::string id = owner.substr(0, owner.find('.'));
    if (const Part* part = installation.findPart(id))
        return kindWithin(*part, owner);
    if (const Run* run = installation.findRun(id))
        return kindWithin(*run, owner);
    return std::nullopt;
}

std::vector<Core*> coresOf(Installation& installation, std::string_view owner) {
    std::vector<Core*> cores;
    for (Run& run : installation.runs)
        for (std::size_t i = 0; i < run.cores.size(); ++i)
            if (owner == "runs" || owner == run.id || owner == run.coreName(i))
                cores.push_back(&run.cores[i]);
    return cores;
}

std::vector<Joint*> jointsOf(Installation& installation, std::string_view owner) {
    std::vector<Joint*> joints;
    const auto add = [&](const std::vector<NamedJoint>& named) {
        for (const NamedJoint& joint : named)
            if (owner == "joints" || owner == joint.name)
                joints.push_back(joint.joint);
    };
    for (Part& part : installation.parts)
        add(jointsOf(part));
    for (Run& run : installation.runs)
        add(jointsOf(run));
    return joints;
}

std::vector<PanelWay*> waysOf(Installation& installation, const std::string& owner) {
    std::vector<PanelWay*> ways;
    for (Part& part : installation.parts)
        if (auto* panel = std::get_if<Panel>(&part.body))
            for (std::size_t i = 0; i < panel->ways.size(); ++i)
                if (owner == part.id || wayOf(part, owner) == i)
                    ways.push_back(&panel->ways[i]);
    return ways;
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

std::vector<std::string> ownerNames(const Installation& installation) {
    std::vector<std::string> names{"surroundings", "joints", "runs", "batteries"};
    const auto add_joints = [&](auto thing) { // a copy, as joints are handed out to be changed
        for (const NamedJoint& joint : jointsOf(thing))
            names.push_back(joint.name);
    };
    for (const Part& part : installation.parts) {
        names.push_back(part.id);
        add_joints(part);
        if (const auto* panel = std::get_if<Panel>(&part.body))
            for (std::size_t i = 1; i <= panel->ways.size(); ++i)
                names.push_back(part.id + "." + std::to_string(i));
    }
    for (const Run& run : installation.runs) {
        names.push_back(run.id);
        add_joints(run);
        for (std::size_t i = 0; i < run.cores.size(); ++i)
            names.push_back(run.coreName(i));
    }
    return names;
}

} // namespace ebbline::installation
