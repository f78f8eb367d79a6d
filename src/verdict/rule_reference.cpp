// SPDX-License-Identifier: MIT
// A new joint, contact, fuse or battery of the same kind, to hold a loss against.
#include "rule_reference.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::verdict {
namespace {

/// Share of a resistance that a better one saves.
double shareBeyond(double better_mohm, double ohm) {
    return ohm > 0 ? std::max(0.0, 1 - better_mohm * 1e-3 / ohm) : 0;
}

std::optional<Joint> findJoint(const Installation& drawn, const Element& element) {
    std::optional<Joint> found;
    const auto look = [&](auto owner) {
        for (const installation::NamedJoint& named : installation::jointsOf(owner))
            if (named.name == element.name)
                found = *named.joint;
    };
    if (const Run* run = drawn.findRun(element.part))
        look(*run);
    else if (const Part* part = drawn.findPart(element.part))
        look(*part);
    return found;
}

Reference
jointReference(const Facts& facts, const Element& element, const Joint& joint, double now_ohm) {
    Reference reference{.basis = joint.resistance_mohm ? Basis::Measured : Basis::Estimate};
    const auto kind = facts.catalogues.joints.find(joint.kind);
    if (kind == facts.catalogues.joints.end() || !kind->second.contains("new"))
        return reference;
    const double new_mohm = kind->second.at("new");
    reference.avoidable_share = shareBeyond(new_mohm, now_ohm);
    reference.remedy = words("Remake the joint {} (a new {} has {} mohm).",
                             element.name,
                             term(joint.kind),
                             text::figure(new_mohm));
    return reference;
}

/// A part's own resistance against the built-in value of its kind.
Reference contactReference(const Part& part, const Element& element, double new_mohm) {
    const double share = shareBeyond(new_mohm, element.ohm);
    const bool stated = element.ohm != new_mohm * 1e-3 && part.model.empty();
    return {.avoidable_share = share,
            .basis = stated ? Basis::Measured : Basis::Estimate,
            .remedy = words("Clean or replace {} (a new one has {} mohm).",
                            element.name,
                            text::figure(new_mohm))};
}

Reference fuseReference(const Facts& facts, const Element& element, const Fuse& fuse) {
    Reference reference{.basis = fuse.resistance_mohm ? Basis::Measured : Basis::Typical,
                        .remedy = words("Renew the holder of {}.", element.name)};
    const auto elements = facts.catalogues.fuses.find(fuse.style);
    if (elements == facts.catalogues.fuses.end())
        return reference;
    const auto typical = elements->second.find(fuse.rating_a);
    if (typical != elements->second.end())
        reference.avoidable_share = shareBeyond(typical->second + Fuse{}.holder_mohm, element.ohm);
    return reference;
}

/// An aged battery against a new one of its chemistry.
Reference batteryReference(const Facts& facts, const Element& element, const Battery& battery) {
    const auto chemistry = facts.catalogues.chemistries.find(battery.chemistry);
    const double aged_pct =
        chemistry == facts.catalogues.chemistries.end() ? 0 : chemistry->second.at("aged_pct");
    return {.avoidable_share = 1 - 1 / (1 + aged_pct / 100 * battery.age_pct / 100),
            .basis = Basis::Estimate,
            .remedy = words("Replace the battery {}.", element.name)};
}

Reference partReference(const Facts& facts, const Part& part, const Element& element) {
    if (const auto* battery = std::get_if<Battery>(&part.body))
        return batteryReference(facts, element, *battery);
    if (const auto* fuse = std::get_if<Fuse>(&part.body))
        return fuseReference(facts, element, *fuse);
    if (const auto* leads = std::get_if<BenchLeads>(&part.body))
        return element.kind == ElementKind::Fuse
                   ? fuseReference(facts,
                                   element,
                                   {.rating_a = leads->rating_a, .holder_mohm = leads->holder_mohm})
                   : contactReference(part, element, BenchLeads{}.clip_mohm);
    if (std::holds_alternative<Isolator>(part.body))
        return contactReference(part, element, Isolator{}.resistance_mohm);
    if (std::holds_alternative<Breaker>(part.body))
        return contactReference(part, element, Breaker{}.resistance_mohm);
    if (std::holds_alternative<Stud>(part.body))
        return contactReference(part, element, Stud{}.face_mohm);
    if (std::holds_alternative<Panel>(part.body))
        return contactReference(part,
                                element,
                                element.kind == ElementKind::Contact ? PanelWay{}.resistance_mohm
                                                                     : Panel{}.rail_mohm);
    return {};
}

} // namespace

Reference findReference(const Facts& facts, const Element& element, double now_ohm) {
    if (const auto joint = findJoint(facts.drawn(), element))
        return jointReference(facts, element, *joint, now_ohm);
    const Part* part = facts.drawn().findPart(element.part);
    return part == nullptr ? Reference{} : partReference(facts, *part, element);
}

} // namespace ebbline::verdict
