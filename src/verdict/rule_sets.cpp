// SPDX-License-Identifier: MIT
// The sets of rules by name, and all rules in the order they are read.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <array>

namespace ebbline {

std::string_view nameOf(RuleSet set) {
    switch (set) {
    case RuleSet::None:
        return "";
    case RuleSet::SmallCraftIso:
        return "small-craft-iso";
    case RuleSet::SmallCraftUs:
        return "small-craft-us";
    case RuleSet::VehicleAndCabin:
        return "vehicle-and-cabin";
    }
    return "";
}

std::string_view nameOf(RuleState state) {
    switch (state) {
    case RuleState::Kept:
        return "kept";
    case RuleState::Broken:
        return "broken";
    case RuleState::NotJudged:
        return "not-judged";
    }
    return "";
}

namespace verdict {
namespace {

constexpr std::array<RuleSet, 3> named_sets{
    RuleSet::SmallCraftIso, RuleSet::SmallCraftUs, RuleSet::VehicleAndCabin};

std::string listNames() {
    std::string names;
    for (const std::string& name : ruleSetNames())
        names += (names.empty() ? "" : ", ") + name;
    return names;
}

} // namespace

std::optional<RuleSet> findRuleSet(std::string_view name) {
    if (name.empty())
        return RuleSet::None;
    for (const RuleSet set : named_sets)
        if (nameOf(set) == name)
            return set;
    return std::nullopt;
}

std::vector<std::string> ruleSetNames() {
    std::vector<std::string> names;
    names.reserve(named_sets.size());
    for (const RuleSet set : named_sets)
        names.emplace_back(nameOf(set));
    return names;
}

/// Says what is missing where no set is chosen; silent where one is.
void judgeRuleSet(const Facts& facts, Findings& findings) {
    const std::string& name = facts.drawn().rules;
    if (facts.set != RuleSet::None)
        return;
    RuleFinding finding{.rule = "rule-set", .on = "", .source = ""};
    if (name.empty()) {
        finding.reason = words("No rule set is chosen, so what depends on one is not judged; "
                               "choose rules = one of {}.",
                               listNames());
    } else {
        const std::vector<std::string> names = ruleSetNames();
        const auto nearest = text::findNearest(name, names);
        finding.reason =
            nearest ? words("There is no rule set '{}'; expected perhaps '{}'.", name, *nearest)
                    : words("There is no rule set '{}'; expected one of {}.", name, listNames());
    }
    findings.push_back(std::move(finding));
}

std::vector<RuleFinding> judgeRules(const Network& network,
                                    const Catalogues& catalogues,
                                    const Evidence& evidence,
                                    const RuleSettings& settings) {
    const Facts facts = collectFacts(network, catalogues, evidence, settings);
    Findings findings;
    for (const auto judge : {judgeRuleSet,
                             judgeHeadroom,
                             judgeFusePlace,
                             judgeUnfused,
                             judgeFuseForStart,
                             judgeFuseForConductor,
                             judgeConductors,
                             judgeBreakingCapacity,
                             judgeDeadShort,
                             judgeReturn,
                             judgeSharedFeed,
                             judgeDrop})
        judge(facts, findings);
    return findings;
}

} // namespace verdict
} // namespace ebbline
