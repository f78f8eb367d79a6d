// SPDX-License-Identifier: MIT
// Voltage drop at running current against 3 % and 10 %. Says nothing about starting.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ebbline::verdict {
namespace {

constexpr std::array<double, 2> published_pct{3, 10};
constexpr double worth_saying_v = 0.01;

/// What the rule set prints, and the formula it calculates by.
struct DropRule {
    std::string source;
    std::string formula; ///< name of it
    double ohm_mm2_per_m = 0;
    bool unchecked = false;
};

std::string sourceOf(const Facts& facts, double limit_pct) {
    if (!facts.isBoat() || std::ranges::count(published_pct, limit_pct) == 0)
        return words("the user's choice; no rule set prints it");
    if (facts.set == RuleSet::SmallCraftUs)
        return limit_pct == 3 ? "ABYC E-11, 3 % table" : "ABYC E-11, 10 % table";
    return limit_pct == 3 ? "ISO 13297 (before: ISO 10133), 3 % circuits"
                          : "ISO 13297 (before: ISO 10133), other circuits 10 %";
}

DropRule ruleOf(const Facts& facts, double limit_pct) {
    switch (facts.set) {
    case RuleSet::SmallCraftIso:
        return {.source = sourceOf(facts, limit_pct),
                .formula = "ISO 13297, 0.0164 I L / S",
                .ohm_mm2_per_m = 0.0164,
                .unchecked = limit_pct == 10}; // another limit is the user's own
    case RuleSet::SmallCraftUs:
        return {.source = sourceOf(facts, limit_pct),
                .formula = "ABYC E-11, K = 10.75",
                .ohm_mm2_per_m = us_ohm_mm2_per_m};
    default:
        return {.source = sourceOf(facts, limit_pct),
                .formula = "IEC 60364-5-52 annex G, 0.0225 ohm mm2/m",
                .ohm_mm2_per_m = 0.0225};
    }
}

/// Ohms of the loop and what other consumers on it add, everything on.
double drawnDrop(const Facts& facts, double amps, bool warm) {
    double volts = 0;
    for (const auto& elements : {facts.out(), facts.back()})
        for (const int index : elements)
            volts += amps * facts.runningOhm(index, amps, warm);
    for (const Sharing& sharing : facts.survey.sharings)
        for (const auto* elements : {&sharing.out, &sharing.back})
            for (const int index : *elements)
                volts += facts.loadAmps(sharing.consumer) * facts.runningOhm(index, amps, warm);
    return volts;
}

/// By the published formula: the conductors alone, each with the current of all that share it.
double formulaDrop(const Facts& facts, double amps, double ohm_mm2_per_m) {
    double volts = 0;
    for (const auto& elements : {facts.out(), facts.back()})
        for (const int index : elements) {
            const auto conductor = facts.findConductor(index);
            if (!conductor)
                continue;
            volts += conductorDrop(ohm_mm2_per_m,
                                   facts.carriedAmps(index, amps),
                                   conductor->length_m,
                                   conductor->area_mm2);
        }
    return volts;
}

RuleFinding makeFinding(const Facts& facts, double limit_pct) {
    return {.rule = "drop-" + text::number(limit_pct) + "-percent",
            .on = facts.drawn().subject,
            .limit = limit_pct,
            .unit = "%",
            .source = ruleOf(facts, limit_pct).source};
}

void compare(const Facts& facts, double amps, double limit_pct, RuleFinding& finding) {
    const DropRule rule = ruleOf(facts, limit_pct);
    const double drawn_v = drawnDrop(facts, amps, false);
    const double warm_v = drawnDrop(facts, amps, true);
    const double formula_v = formulaDrop(facts, amps, rule.ohm_mm2_per_m);
    // Where a rule set prints a formula, it decides if it is the stricter.
    const double volts = facts.isBoat() ? std::max(drawn_v, formula_v) : drawn_v;
    const double drop_pct = volts / facts.drawn().nominal_v * 100;
    finding.value = drop_pct;
    const bool within = drop_pct <= limit_pct;
    std::string figures = words("Running at {} A the drawn loop loses {} V; by formula ({}, "
                                "conductors alone) {} V.",
                                text::fixed(amps, 1),
                                text::fixed(drawn_v, 2),
                                rule.formula,
                                text::fixed(formula_v, 2));
    // Published formulas have their own allowance for warmth, so that it decides nothing here.
    if (warm_v - drawn_v > worth_saying_v)
        figures += " " + words("Once its conductors have warmed by that current: {} V.",
                               text::fixed(warm_v, 2));
    const auto& choice = facts.settings.drop;
    if (choice && choice->limit_pct == limit_pct) {
        finding.state = within ? RuleState::Kept : RuleState::Broken;
        finding.unchecked = rule.unchecked;
        finding.reason = choice->reason.empty()
                             ? words("{} Says nothing about starting.", figures)
                             : words("{} Chosen because: {}. Says nothing about starting.",
                                     figures,
                                     choice->reason);
    } else {
        const std::string result = within ? words("It would be kept") : words("It would be broken");
        finding.reason = choice ? words("{} {}, but is not the limit chosen.", figures, result)
                                : words("{} {}, but whether a fridge falls under 3 % or 10 % is "
                                        "yours to choose, with a reason.",
                                        figures,
                                        result);
    }
}

} // namespace

void judgeDrop(const Facts& facts, Findings& findings) {
    std::vector<double> limits(published_pct.begin(), published_pct.end());
    if (facts.settings.drop && std::ranges::count(limits, facts.settings.drop->limit_pct) == 0)
        limits.push_back(facts.settings.drop->limit_pct);
    const auto amps = facts.runningAmps();
    for (const double limit_pct : limits) {
        RuleFinding finding = makeFinding(facts, limit_pct);
        if (facts.network.loop && amps)
            compare(facts, *amps, limit_pct, finding);
        else
            finding.reason =
                facts.network.loop
                    ? words("The compressor never ran, so its running current is not known.")
                    : words("No closed loop leads from a battery to the fridge.");
        findings.push_back(std::move(finding));
    }
}

} // namespace ebbline::verdict
