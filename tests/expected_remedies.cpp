// SPDX-License-Identifier: MIT
// Which remedies apply to a drawing, read from the drawing itself.
#include "expected_remedies.h"

#include "ebbline/file.h"

#include <map>
#include <vector>

namespace ebbline {
namespace {

using enum RemedyKind;

void expectJoints(const Installation& drawn, const Element& element, NamedRemedies& expected) {
    const auto joint = findJoint(drawn, element.name);
    if (!joint)
        return;
    const auto& kind = file::embeddedModels().catalogues.joints.at(joint->kind);
    const double mohm = joint->resistance_mohm.value_or(kind.at(joint->condition));
    if (mohm > kind.at("new") + 1)
        expected.emplace(RemakeJoint, element.name);
}

void expectParts(const Installation& drawn, NamedRemedies& expected) {
    bool is_alone = true;
    for (const Part& part : drawn.parts) {
        if (const auto* battery = std::get_if<Battery>(&part.body)) {
            if (battery->charge_pct < 100)
                expected.emplace(ChargeBattery, part.id);
            if (battery->age_pct > 0)
                expected.emplace(RenewBattery, part.id);
        } else if (const auto* charger = std::get_if<Charger>(&part.body)) {
            is_alone = false;
            if (!charger->on)
                expected.emplace(ChargerOn, "");
        } else if (std::holds_alternative<Load>(part.body)) {
            is_alone = false;
            expected.emplace(OtherLoadsOff, "");
        }
    }
    const auto& unit = std::get<Controller>(drawn.findPart(drawn.subject)->body);
    if (unit.pressure_pct > 0)
        expected.emplace(LetRest, drawn.subject);
    if (is_alone && drawn.nominal_v == 12 && unit.nominal_v == 0)
        expected.emplace(DoubleVoltage, "");
}

/// Cables that hold a tenth of the loop's resistance or more.
void expectCables(const std::vector<const Element*>& loop, NamedRemedies& expected) {
    std::map<std::string, double> cables;
    double whole_ohm = 0;
    for (const Element* element : loop) {
        whole_ohm += element->ohm;
        if (element->kind == ElementKind::Conductor)
            cables[element->part] += element->ohm;
    }
    for (const auto& [run, ohm] : cables)
        if (ohm >= 0.1 * whole_ohm) {
            expected.emplace(ThickerCable, run);
            expected.emplace(ShorterWay, run);
        }
}

} // namespace

std::optional<Joint> findJoint(Installation drawn, const std::string& name) {
    std::optional<Joint> found;
    const auto look = [&](auto& owner) {
        for (const installation::NamedJoint& joint : installation::jointsOf(owner))
            if (joint.name == name)
                found = *joint.joint;
    };
    for (Part& part : drawn.parts)
        look(part);
    for (Run& run : drawn.runs)
        look(run);
    return found;
}

NamedRemedies expectRemedies(const Installation& drawn, const Examination& found) {
    NamedRemedies expected;
    const Outcome outcome = found.start.outcome;
    if (found.verdict.margin == Margin::Clear || outcome == Outcome::Reversed)
        return expected;
    const Network network = network::build(drawn, file::embeddedModels().catalogues);
    std::vector<const Element*> loop;
    for (const auto& way : {network.loop.value().out, network.loop.value().back})
        for (const Step& step : way)
            loop.push_back(&network.elements[static_cast<std::size_t>(step.element)]);
    for (const Element* element : loop) {
        expectJoints(drawn, *element, expected);
        if (outcome == Outcome::FuseOpens && element->kind == ElementKind::Fuse)
            expected.emplace(LargerFuse, element->name);
    }
    expectParts(drawn, expected);
    expectCables(loop, expected);
    return expected;
}

} // namespace ebbline
