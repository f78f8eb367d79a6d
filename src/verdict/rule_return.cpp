// SPDX-License-Identifier: MIT
// The way back: as thick as the way out, and on a boat a conductor of its own.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::verdict {
namespace {

void judgeSize(const Facts& facts, Findings& findings) {
    const std::vector<Conductor> out = facts.conductors(facts.out());
    const std::vector<Conductor> back = facts.conductors(facts.back());
    RuleFinding finding{.rule = "return-size",
                        .on = facts.drawn().subject,
                        .limit_is_least = true,
                        .unit = "mm2",
                        .source = words("common practice, no source")};
    if (out.empty() || back.empty()) {
        finding.reason = !facts.network.loop
                             ? words("No closed loop leads from a battery to the fridge.")
                         : back.empty() ? words("No cable lies in the way back.")
                                        : words("No cable lies in the way out.");
    } else {
        const auto thinnest_out = std::ranges::min_element(out, {}, &Conductor::area_mm2);
        const auto thinnest_back = std::ranges::min_element(back, {}, &Conductor::area_mm2);
        finding.on = thinnest_back->name;
        finding.value = thinnest_back->area_mm2;
        finding.limit = thinnest_out->area_mm2;
        const bool kept = *finding.value >= *finding.limit * (1 - 1e-9);
        finding.state = kept ? RuleState::Kept : RuleState::Broken;
        finding.reason =
            words("Thinnest on the way back; the same current flows in {} on the way out.",
                  thinnest_out->name);
    }
    findings.push_back(std::move(finding));
}

/// The first element of the loop that leads through sheet metal; empty: none does.
std::string findMetal(const Facts& facts) {
    for (const auto& way : {facts.out(), facts.back()})
        for (const int element : way) {
            const Part* part = facts.drawn().findPart(facts.element(element).part);
            if (part != nullptr && std::holds_alternative<Bond>(part->body))
                return facts.element(element).name;
        }
    return "";
}

void judgeTwoWire(const Facts& facts, Findings& findings) {
    if (!facts.network.loop)
        return;
    RuleFinding finding{.rule = "two-wire",
                        .state = RuleState::Kept,
                        .unchecked = facts.isBoat(),
                        .on = findMetal(facts)};
    const bool by_metal = !finding.on.empty();
    if (facts.isBoat())
        finding.source = facts.set == RuleSet::SmallCraftIso
                             ? "ISO 13297 (ISO 10133:2012 clause 4.1), two-wire system"
                             : "ABYC E-11, two-wire system";
    else
        finding.source = words("common practice, no source");
    if (!by_metal)
        finding.reason = words("Out and back both run in conductors of their own.");
    else if (facts.isBoat()) {
        finding.state = RuleState::Broken;
        finding.reason =
            words("The current returns through the hull or bonded metal: on a boat that "
                  "corrodes it and is not allowed, however little it drops.");
    } else {
        finding.state = RuleState::NotJudged;
        finding.reason =
            words("The current returns through a chassis: usual in vehicles, forbidden on "
                  "boats; no rule set that says so is chosen.");
    }
    findings.push_back(std::move(finding));
}

} // namespace

void judgeReturn(const Facts& facts, Findings& findings) {
    judgeSize(facts, findings);
    judgeTwoWire(facts, findings);
}

} // namespace ebbline::verdict
