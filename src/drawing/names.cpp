// SPDX-License-Identifier: MIT
// What things are called in the pictures.
#include "names.h"

#include "named.h"

#include "ebbline/network.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

using text::fixed;

std::string amperes(double rating_a) {
    return text::figure(rating_a);
}

std::string plainName(const Part& part) {
    if (const auto* fuse = std::get_if<Fuse>(&part.body))
        return words("{}\u00a0A fuse", amperes(fuse->rating_a));
    if (const auto* breaker = std::get_if<Breaker>(&part.body))
        return words("{}\u00a0A breaker", amperes(breaker->rating_a));
    if (std::holds_alternative<Controller>(part.body))
        return words("Fridge");
    if (std::holds_alternative<Isolator>(part.body))
        return words("Isolator");
    if (std::holds_alternative<Battery>(part.body))
        return words("Battery");
    if (std::holds_alternative<Thermostat>(part.body))
        return words("Thermostat");
    if (std::holds_alternative<BenchLeads>(part.body))
        return words("Test leads");
    return capital(term(installation::kindOf(part)));
}

std::string jointWords(const Joint& joint) {
    const std::string kind = term(joint.kind);
    if (!joint.connected)
        return words("{} taken off", kind);
    if (joint.resistance_mohm)
        return words("{} of {}\u00a0mΩ", kind, text::figure(*joint.resistance_mohm));
    return joint.condition == "new" ? kind : words("{} {}", term(joint.condition), kind);
}

} // namespace

std::string placeOf(const Installation& installation, const Terminal& terminal) {
    const Part* part = installation.findPart(terminal.part);
    if (part == nullptr)
        return terminal.text();
    const bool has_poles = terminal.terminal == "plus" || terminal.terminal == "minus";
    std::string name = nameOf(*part);
    if (!has_poles)
        return name;
    return terminal.terminal == "plus" ? words("{} plus", name) : words("{} minus", name);
}

std::string metres(double length_m) {
    const bool coarse = std::abs(length_m * 10 - std::round(length_m * 10)) < 1e-6;
    return words("{}\u00a0m", fixed(length_m, coarse ? 1 : 2));
}

std::string briefly(const std::string& name) {
    return name.substr(0, name.find(','));
}

std::string nameOf(const Part& part) {
    return part.name.empty() ? plainName(part) : text::escapeControls(part.name);
}

std::string nameOf(const Size& size) {
    std::string name = network::sizeWords(size);
    text::replaceAll(name, " mm2", "\u00a0mm²");
    return name;
}

std::string nameOf(const Run& run) {
    const std::string size = nameOf(run.cores.front().size);
    const std::string length = metres(run.length());
    switch (run.cores.size()) {
    case 1:
        return words("{} cable, {}", size, length);
    case 2:
        return words("{} twin, {}", size, length);
    default:
        return words("{} × {} cable, {}", run.cores.size(), size, length);
    }
}

std::optional<Joint> findJoint(const Installation& installation, const std::string& name) {
    const std::string owner = name.substr(0, name.find('.'));
    const auto search = [&](auto thing) -> std::optional<Joint> {
        for (const installation::NamedJoint& joint : installation::jointsOf(thing))
            if (joint.name == name)
                return *joint.joint;
        return std::nullopt;
    };
    if (const Run* run = installation.findRun(owner))
        return search(*run);
    if (const Part* part = installation.findPart(owner))
        return search(*part);
    return std::nullopt;
}

std::string nameOfJoint(const Installation& installation, const std::string& joint) {
    const auto found = findJoint(installation, joint);
    const std::string owner = joint.substr(0, joint.find('.'));
    if (!found)
        return joint;
    if (const Part* part = installation.findPart(owner))
        return found->resistance_mohm
                   ? words("{}, {}\u00a0mΩ", nameOf(*part), text::figure(*found->resistance_mohm))
               : found->condition == "new" ? nameOf(*part)
                                           : words("{}, {}", nameOf(*part), term(found->condition));
    const Run* run = installation.findRun(owner);
    for (std::size_t i = 0; i < run->cores.size(); ++i)
        for (const bool from : {true, false})
            if (run->endName(i, from ? "from" : "to") == joint)
                return words("{} at {}",
                             jointWords(*found),
                             placeOf(installation, from ? run->cores[i].from : run->cores[i].to));
    return joint;
}

std::string nameOfJointAlone(const Installation& installation, const std::string& joint) {
    const auto found = findJoint(installation, joint);
    return found ? jointWords(*found) : joint;
}

} // namespace ebbline::drawing
