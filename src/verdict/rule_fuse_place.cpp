// SPDX-License-Identifier: MIT
// A fuse in the fridge's feed, each first fuse near the battery, and nothing without one.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <limits>

namespace ebbline::verdict {
namespace {

constexpr double m_per_inch = 0.0254;

/// How far from the battery's plus post the first fuse may sit, along the conductor.
struct PlaceRule {
    std::optional<double> limit_m; ///< absent: as far as one likes
    std::string source;
    bool unchecked = false;
    std::string missing; ///< why there is no rule; empty when there is
};

PlaceRule placeRule(const Facts& facts, double distance_m) {
    const bool sheathed = facts.settings.sheathed;
    switch (facts.set) {
    case RuleSet::SmallCraftIso:
        return {.limit_m = sheathed ? std::nullopt : std::optional(0.2),
                .source = "ISO 13297 (before: ISO 10133): 200 mm, or sheathed all the way",
                .unchecked = true};
    case RuleSet::SmallCraftUs:
        if (!sheathed)
            return {.limit_m = 7 * m_per_inch, .source = "33 CFR 183.455: 7 in, 40 in sheathed"};
        if (distance_m <= 40 * m_per_inch)
            return {.limit_m = 40 * m_per_inch, .source = "33 CFR 183.455: 40 in sheathed"};
        return {.limit_m = 72 * m_per_inch,
                .source = "33 CFR 183.460: 72 in from a battery terminal, sheathed",
                .unchecked = true};
    case RuleSet::VehicleAndCabin:
        return {.missing = words("No published distance is known here for vehicles and cabins.")};
    case RuleSet::None:
        break;
    }
    return {.missing = words("The distance allowed depends on the rule set, and none is chosen.")};
}

bool isProtector(const Element& element) {
    return element.kind == ElementKind::Fuse || element.kind == ElementKind::Breaker;
}

bool isWay(const Element& element) {
    return element.kind == ElementKind::Conductor || element.kind == ElementKind::Joint ||
           element.kind == ElementKind::Contact;
}

/// Metres of conductor from the nearest battery's plus to every node, past every fuse and
/// breaker; infinite where there is no such way.
std::vector<double> findUnfusedMetres(const Facts& facts) {
    std::vector<double> metres(facts.network.nodes.size(), std::numeric_limits<double>::infinity());
    std::vector<std::vector<std::pair<int, double>>> ways(metres.size());
    std::vector<int> pending;
    const auto at = [](int node) { return static_cast<std::size_t>(node); };
    for (std::size_t i = 0; i < facts.network.elements.size(); ++i) {
        const Element& element = facts.network.elements[i];
        if (element.kind == ElementKind::Battery) {
            metres[at(element.to)] = 0;
            pending.push_back(element.to);
        }
        if (!isWay(element))
            continue;
        const auto conductor = facts.findConductor(static_cast<int>(i));
        const double length_m = conductor ? conductor->length_m : 0;
        ways[at(element.from)].emplace_back(element.to, length_m);
        ways[at(element.to)].emplace_back(element.from, length_m);
    }
    while (!pending.empty()) {
        const int node = pending.back();
        pending.pop_back();
        for (const auto& [next, length_m] : ways[at(node)])
            if (metres[at(node)] + length_m < metres[at(next)]) {
                metres[at(next)] = metres[at(node)] + length_m;
                pending.push_back(next);
            }
    }
    return metres;
}

/// The nearer side of a fuse.
double metresTo(const std::vector<double>& metres, const Element& element) {
    return std::min(metres[static_cast<std::size_t>(element.from)],
                    metres[static_cast<std::size_t>(element.to)]);
}

/// Who asks for a fuse in every feed; ISO's wording is from memory.
std::string fuseSource(RuleSet set) {
    switch (set) {
    case RuleSet::SmallCraftIso:
        return "ISO 13297 (before: ISO 10133), overcurrent protection";
    case RuleSet::SmallCraftUs:
        return "33 CFR 183.455";
    default:
        return words("common practice, no source");
    }
}

void judgePresence(const Facts& facts, Findings& findings) {
    RuleFinding finding{.rule = "fuse-present",
                        .unchecked = facts.set == RuleSet::SmallCraftIso,
                        .on = facts.drawn().subject,
                        .source = fuseSource(facts.set)};
    const std::vector<int> feeding = facts.protectors(facts.out());
    if (!facts.network.loop) {
        finding.reason = words("No closed loop leads from a battery to the fridge.");
    } else if (feeding.empty()) {
        finding.state = RuleState::Broken;
        finding.reason =
            facts.protectors(facts.back()).empty()
                ? words("Nothing in the fridge's feed opens when the cable is shorted.")
                : words("The only fuse sits in the minus side: a short from plus to "
                        "any other metal passes it by.");
    } else {
        finding.state = RuleState::Kept;
        finding.on = facts.element(feeding.front()).name;
        finding.reason = words("The first in the fridge's feed, from the battery.");
    }
    findings.push_back(std::move(finding));
}

RuleFinding judgeDistance(const Facts& facts, const Element& fuse, double distance_m) {
    const PlaceRule rule = placeRule(facts, distance_m);
    RuleFinding finding{.rule = "fuse-near-battery",
                        .unchecked = rule.unchecked,
                        .on = fuse.name,
                        .value = distance_m,
                        .limit = rule.limit_m,
                        .unit = "m",
                        .reason = rule.missing,
                        .source = rule.source};
    if (!rule.missing.empty())
        return finding;
    // Lengths are added up: 0.1 and 0.1 m are 0.2 m.
    const bool near = !rule.limit_m || distance_m <= *rule.limit_m * (1 + 1e-9);
    finding.state = near ? RuleState::Kept : RuleState::Broken;
    const std::string metres = text::fixed(distance_m, 2);
    finding.reason = facts.settings.sheathed
                         ? words("A short in these {} m of conductor from the battery is cleared "
                                 "by nothing; taken as sheathed all the way.",
                                 metres)
                         : words("A short in these {} m of conductor from the battery is cleared "
                                 "by nothing; taken as not sheathed.",
                                 metres);
    return finding;
}

} // namespace

void judgeFusePlace(const Facts& facts, Findings& findings) {
    judgePresence(facts, findings);
    const std::vector<double> metres = findUnfusedMetres(facts);
    for (const Element& element : facts.network.elements)
        if (isProtector(element) && metresTo(metres, element) < 1e9)
            findings.push_back(judgeDistance(facts, element, metresTo(metres, element)));
}

void judgeUnfused(const Facts& facts, Findings& findings) {
    const std::vector<double> metres = findUnfusedMetres(facts);
    const std::string source = fuseSource(facts.set);
    const bool unchecked = facts.set == RuleSet::SmallCraftIso;
    const std::size_t before = findings.size();
    for (const Element& element : facts.network.elements) {
        const bool draws = element.kind == ElementKind::Load ||
                           element.kind == ElementKind::Controller ||
                           element.kind == ElementKind::Charger;
        const bool is_source = element.kind == ElementKind::Charger;
        const int plus = is_source ? element.to : element.from;
        const double metres_to = metres[static_cast<std::size_t>(plus)];
        if (!draws || metres_to > 1e9)
            continue;
        findings.push_back({.rule = "unfused-branch",
                            .state = RuleState::Broken,
                            .unchecked = unchecked,
                            .on = element.name,
                            .value = metres_to,
                            .unit = "m",
                            .reason = words("Reached from the battery's plus past every fuse: a "
                                            "short in its {} m of conductor is cleared by nothing.",
                                            text::fixed(metres_to, 2)),
                            .source = source});
    }
    if (findings.size() == before)
        findings.push_back(
            {.rule = "unfused-branch",
             .state = RuleState::Kept,
             .unchecked = unchecked,
             .reason = words("Every consumer and charger lies behind a fuse or breaker."),
             .source = source});
}

} // namespace ebbline::verdict
