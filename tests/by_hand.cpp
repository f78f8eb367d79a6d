// SPDX-License-Identifier: MIT
// A remedy carried out on the drawing as its words say; shares no code with the search for it.
#include "by_hand.h"

#include "ebbline/file.h"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace ebbline {
namespace {

using enum RemedyKind;

/// The first part of that kind; by its id, if there is one.
template <class Body>
Body& findBody(Installation& installation, const std::string& id) {
    for (Part& part : installation.parts)
        if (auto* body = std::get_if<Body>(&part.body);
            body != nullptr && (id.empty() || part.id == id))
            return *body;
    throw std::logic_error("no such part: " + id);
}

Run& findRun(Installation& installation, const std::string& id) {
    return *std::ranges::find(installation.runs, id, &Run::id);
}

/// New ones of their kind, of that name or, without one, all there are.
void remake(Installation& installation, const std::string& name) {
    const auto look = [&](auto& owner) {
        for (const installation::NamedJoint& joint : installation::jointsOf(owner))
            if (name.empty() || joint.name == name)
                *joint.joint = {.kind = joint.joint->kind};
    };
    for (Part& part : installation.parts)
        look(part);
    for (Run& run : installation.runs)
        look(run);
}

/// Unscrewed and carried away, with their cables.
void removeLoads(Installation& installation) {
    std::set<std::string> loads;
    for (const Part& part : installation.parts)
        if (std::holds_alternative<Load>(part.body))
            loads.insert(part.id);
    std::erase_if(installation.parts, [&](const Part& part) { return loads.contains(part.id); });
    std::erase_if(installation.runs, [&](const Run& run) {
        return std::ranges::any_of(run.cores, [&](const Core& core) {
            return loads.contains(core.from.part) || loads.contains(core.to.part);
        });
    });
    for (Event& event : installation.events)
        std::erase_if(event.set, [&](const Set& set) {
            return loads.contains(set.path.substr(0, set.path.find('.')));
        });
}

void doubleVoltage(Installation& installation) {
    installation.nominal_v = 24;
    for (Part& part : installation.parts)
        if (auto* battery = std::get_if<Battery>(&part.body))
            battery->nominal_v = 24;
}

void switchChargersOn(Installation& installation) {
    for (Part& part : installation.parts)
        if (auto* charger = std::get_if<Charger>(&part.body))
            charger->on = true;
}

void mendUnit(Installation& installation, const std::string& id) {
    auto& unit = findBody<Controller>(installation, id);
    Controller other;
    other.nominal_v = unit.nominal_v;
    other.pressure_pct = unit.pressure_pct;
    other.shell_c = unit.shell_c;
    unit = other;
}

/// The largest key below `value` that is above `drawn`.
std::optional<double>
findBetween(const std::map<double, double>& steps, double drawn, double value) {
    std::optional<double> below;
    for (const auto& [step, unused] : steps)
        if (step > drawn && step < value)
            below = step;
    return below;
}

} // namespace

Installation carryOut(const Remedy& remedy, double value, const Installation& installation) {
    Installation made = installation;
    switch (remedy.kind) {
    case RemakeJoint:
    case RemakeJoints:
        remake(made, remedy.on);
        break;
    case ChargeBattery:
        findBody<Battery>(made, remedy.on).charge_pct = value;
        break;
    case RenewBattery:
        findBody<Battery>(made, remedy.on).charge_pct = 100;
        findBody<Battery>(made, remedy.on).age_pct = 0;
        break;
    case ChargerOn:
        switchChargersOn(made);
        break;
    case OtherLoadsOff:
        removeLoads(made);
        break;
    case LetRest:
        findBody<Controller>(made, remedy.on).pressure_pct = 0;
        findBody<Controller>(made, remedy.on).shell_c = 40;
        break;
    case MendUnit:
        // Another of its kind out of the box, standing as this one stands.
        mendUnit(made, remedy.on);
        break;
    case LargerFuse:
        findBody<Fuse>(made, remedy.on).rating_a = value;
        break;
    case ThickerCable:
        for (Core& core : findRun(made, remedy.on).cores)
            core.size = {remedy.scale, value};
        break;
    case ShorterWay:
        findRun(made, remedy.on).length_m = value;
        break;
    case DoubleVoltage:
        doubleVoltage(made);
        break;
    case SwitchOn:
        findBody<Isolator>(made, remedy.on).closed = true;
        break;
    case RenewFuse:
        findBody<Fuse>(made, remedy.on).blown = false;
        findBody<Fuse>(made, remedy.on).age_pct = 0;
        break;
    case RenewContact:
        findBody<Isolator>(made, remedy.on).resistance_mohm = Isolator{}.resistance_mohm;
        break;
    case RenewCable:
        findRun(made, remedy.on).broken_pct = 0;
        break;
    case RenewHolder:
        findBody<Fuse>(made, remedy.on).holder_mohm = Fuse{}.holder_mohm;
        break;
    }
    return made;
}

std::optional<double>
findStepBelow(const Remedy& remedy, double value, const Installation& installation) {
    const Catalogues& catalogues = file::embeddedModels().catalogues;
    Installation drawn = installation; // to be looked through
    if (remedy.kind == ChargeBattery) {
        const double charge_pct = findBody<Battery>(drawn, remedy.on).charge_pct;
        return value > 50 && value - 10 > charge_pct ? std::optional(value - 10) : std::nullopt;
    }
    if (remedy.kind == LargerFuse)
        return findBetween(
            catalogues.fuses.at("blade"), findBody<Fuse>(drawn, remedy.on).rating_a, value);
    if (remedy.kind == ThickerCable && remedy.scale == SizeScale::Mm2) {
        const Core& core = findRun(drawn, remedy.on).cores.front();
        return findBetween(catalogues.conductors.at(core.conductor), core.size.value, value);
    }
    return std::nullopt;
}

} // namespace ebbline
