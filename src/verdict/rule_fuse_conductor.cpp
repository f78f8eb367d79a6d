// SPDX-License-Identifier: MIT
// Every fuse and breaker is small enough for the weakest conductor behind it.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::verdict {
namespace {

/// Elements that one fuse guards: what it protects and no smaller one does.
std::vector<int> guardedBy(const Facts& facts, const Protection& fuse) {
    std::vector<int> guarded;
    for (const int element : fuse.protects) {
        const bool has_smaller =
            std::ranges::any_of(facts.survey.protections, [&](const Protection& other) {
                return facts.ratingOf(other.element) < facts.ratingOf(fuse.element) &&
                       std::ranges::binary_search(other.protects, element);
            });
        if (!has_smaller)
            guarded.push_back(element);
    }
    return guarded;
}

/// The fridge's return carries what its feed lets through: the smallest fuse in the feed guards it.
std::vector<int> guardedReturn(const Facts& facts, int fuse) {
    const std::vector<int> feeding = facts.protectors(facts.out());
    const auto smallest =
        std::ranges::min_element(feeding, {}, [&](int element) { return facts.ratingOf(element); });
    return smallest != feeding.end() && *smallest == fuse ? facts.back() : std::vector<int>();
}

struct Weakest {
    Conductor conductor;
    std::optional<Capacity> capacity;
};

/// The conductor of least capacity; one without a known capacity before all others.
std::optional<Weakest> findWeakest(const Facts& facts, const std::vector<int>& elements) {
    std::optional<Weakest> weakest;
    for (Conductor& conductor : facts.conductors(elements)) {
        auto capacity = facts.capacityOf(conductor);
        if (!weakest ||
            (weakest->capacity && (!capacity || capacity->amps < weakest->capacity->amps)))
            weakest = Weakest{std::move(conductor), std::move(capacity)};
    }
    return weakest;
}

double allowedTimes(RuleSet set) {
    return set == RuleSet::SmallCraftUs ? 1.5 : 1.0;
}

std::string fuseSource(RuleSet set) {
    return set == RuleSet::SmallCraftUs
               ? "33 CFR 183.455: at most 150 % of table 5 below 50 V"
               : "ISO 13297: not above the conductor's current-carrying capacity";
}

void judgeOneFuse(const Facts& facts, const Protection& fuse, Findings& findings) {
    std::vector<int> behind = guardedBy(facts, fuse);
    std::ranges::copy(guardedReturn(facts, fuse.element), std::back_inserter(behind));
    const auto weakest = findWeakest(facts, behind);
    if (!weakest)
        return;
    RuleFinding finding{.rule = "fuse-protects-conductor",
                        .on = facts.element(fuse.element).name,
                        .value = facts.ratingOf(fuse.element),
                        .unit = "A"};
    if (!weakest->capacity) {
        finding.reason = facts.whyNoCapacity(weakest->conductor);
    } else {
        const double times = allowedTimes(facts.set);
        finding.limit = weakest->capacity->amps * times;
        finding.state = *finding.value <= *finding.limit ? RuleState::Kept : RuleState::Broken;
        finding.unchecked = weakest->capacity->unchecked;
        finding.source = fuseSource(facts.set) + "; " + facts.capacitySource();
        finding.reason = words("Weakest behind it is {}, {}{}; insulation taken as {} °C.",
                               weakest->conductor.name,
                               weakest->capacity->how,
                               times == 1 ? "" : ", x " + text::figure(times),
                               text::figure(weakest->conductor.laying.insulation_c));
    }
    findings.push_back(std::move(finding));
}

} // namespace

void judgeFuseForConductor(const Facts& facts, Findings& findings) {
    for (const Protection& fuse : facts.survey.protections)
        judgeOneFuse(facts, fuse, findings);
}

} // namespace ebbline::verdict
