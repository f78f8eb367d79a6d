// SPDX-License-Identifier: MIT
// Conductors: able to carry the current where they lie, and not too thin to last.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <limits>

namespace ebbline::verdict {
namespace {

std::string temperatureWords(const Conductor& conductor, double amps, double capacity_a) {
    const auto& [insulation_c, ambient_c, circuits] = conductor.laying;
    return words("It settles at {} °C, by the cautious formula at {} °C.",
                 text::fixed(conductorTemperature(ambient_c, insulation_c, amps, capacity_a), 0),
                 text::fixed(cautiousTemperature(ambient_c, insulation_c, amps, capacity_a), 0));
}

/// The conductor of the feed and return with least to spare.
void judgeCapacity(const Facts& facts, Findings& findings) {
    RuleFinding worst{.rule = "current-capacity",
                      .on = facts.drawn().subject,
                      .unit = "A",
                      .source = facts.capacitySource()};
    const auto fridge_a = facts.runningAmps();
    if (!facts.network.loop || !fridge_a)
        worst.reason = facts.network.loop
                           ? words("The compressor never ran, so its running current is not known.")
                           : words("No closed loop leads from a battery to the fridge.");
    for (const auto& way : {facts.out(), facts.back()})
        for (const int element : way) {
            const auto conductor = facts.findConductor(element);
            if (!conductor || !fridge_a)
                continue;
            const auto capacity = facts.capacityOf(*conductor);
            if (!capacity) {
                worst.reason = facts.whyNoCapacity(*conductor);
                findings.push_back(worst);
                return;
            }
            const double amps = facts.carriedAmps(element, *fridge_a);
            if (worst.value && worst.limit && *worst.limit - *worst.value <= capacity->amps - amps)
                continue;
            worst.on = conductor->name;
            worst.value = amps;
            worst.limit = capacity->amps;
            worst.unchecked = capacity->unchecked;
            worst.state = amps <= capacity->amps ? RuleState::Kept : RuleState::Broken;
            worst.reason =
                words("Least to spare: {}. {}",
                      capacity->how,
                      capacity->amps > 0
                          ? temperatureWords(*conductor, amps, capacity->amps)
                          : words("Its surroundings are as hot as its insulation may be."));
        }
    findings.push_back(std::move(worst));
}

/// Thin conductors break before they melt: published least cross-sections.
std::optional<double> leastArea(RuleSet set, bool in_sheath) {
    if (set == RuleSet::SmallCraftIso)
        return in_sheath ? 0.75 : 1.0;
    if (set == RuleSet::SmallCraftUs)
        return network::awgArea(in_sheath ? 18 : 16);
    return std::nullopt;
}

/// Cross-section over the least. An SAE gauge holds less copper than the AWG gauge of its number,
/// and counts as that.
double shareOfLeast(RuleSet set, const Conductor& conductor, double least_mm2) {
    const double share = conductor.area_mm2 / least_mm2;
    const bool by_number = set == RuleSet::SmallCraftUs && conductor.size.scale == SizeScale::Sae &&
                           conductor.size.value <= (conductor.in_sheath ? 18 : 16);
    return by_number ? std::max(share, 1.0) : share;
}

void judgeLeastSize(const Facts& facts, Findings& findings) {
    if (!facts.isBoat())
        return;
    std::optional<RuleFinding> worst;
    double worst_share = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < facts.network.elements.size(); ++i) {
        const auto conductor = facts.findConductor(static_cast<int>(i));
        if (!conductor)
            continue;
        const auto limit = leastArea(facts.set, conductor->in_sheath);
        if (!limit)
            continue;
        const double share = shareOfLeast(facts.set, *conductor, *limit);
        if (share >= worst_share)
            continue;
        worst_share = share;
        worst = RuleFinding{.rule = "smallest-conductor",
                            .state = share >= 1 - 1e-9 ? RuleState::Kept : RuleState::Broken,
                            .on = conductor->name,
                            .value = conductor->area_mm2,
                            .limit = limit,
                            .limit_is_least = true,
                            .unit = "mm2",
                            .reason = conductor->in_sheath
                                          ? words("The thinnest, one of several cores in a sheath.")
                                          : words("The thinnest, laid on its own."),
                            .source = facts.set == RuleSet::SmallCraftIso
                                          ? "ISO 13297: 1 mm2, 0.75 mm2 in a sheath"
                                          : "33 CFR 183.425: 16 AWG, 18 AWG in a sheath"};
    }
    if (worst)
        findings.push_back(std::move(*worst));
}

} // namespace

void judgeConductors(const Facts& facts, Findings& findings) {
    judgeCapacity(facts, findings);
    judgeLeastSize(facts, findings);
}

} // namespace ebbline::verdict
