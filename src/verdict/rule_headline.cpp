// SPDX-License-Identifier: MIT
// The first line: the cause in one sentence, and the first thing to do.
#include "rule_facts.h"
#include "rule_machine.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>

namespace ebbline::verdict {
namespace {

constexpr double worth_naming_v = 0.02; // less than a meter shows is no cause

/// One thing that one would put right: a joint, a part, or a cable with all its conductors.
struct Culprit {
    std::string name;
    double volts = 0;
    double avoidable_v = 0;
    std::string remedy;
};

bool isCable(const Facts& facts, const std::string& element) {
    return std::ranges::any_of(facts.network.elements, [&](const Element& one) {
        return one.name == element && one.kind == ElementKind::Conductor;
    });
}

const Element* findElement(const Facts& facts, const std::string& name) {
    const auto at = std::ranges::find(facts.network.elements, name, &Element::name);
    return at == facts.network.elements.end() ? nullptr : &*at;
}

/// The losses, the conductors of one run taken together: one lays them together.
std::vector<Culprit> gatherCulprits(const Facts& facts, const std::vector<Loss>& losses) {
    std::vector<Culprit> culprits;
    for (const Loss& loss : losses) {
        const Element* element = findElement(facts, loss.element);
        const std::string name =
            element != nullptr && isCable(facts, loss.element) ? element->part : loss.element;
        auto at = std::ranges::find(culprits, name, &Culprit::name);
        if (at == culprits.end())
            at = culprits.insert(at, {.name = name});
        at->volts += loss.volts;
        at->avoidable_v += loss.avoidable_v;
        if (at->remedy.empty())
            at->remedy = loss.remedy;
    }
    return culprits;
}

/// How far the battery rests below full; needs no loss in the loop.
Culprit findFlatBattery(const Facts& facts) {
    if (!facts.network.loop || !facts.evidence.start.source_v)
        return {};
    const Element& element = facts.element(facts.network.loop->battery);
    const auto& battery = std::get<Battery>(facts.drawn().findPart(element.part)->body);
    const auto table = facts.tables().batteries.find(battery.chemistry);
    if (table == facts.tables().batteries.end())
        return {};
    const double full_v = table->second.full_v * battery.nominal_v / 12;
    return {.name = element.name,
            .volts = *facts.evidence.start.source_v,
            .avoidable_v = full_v - *facts.evidence.start.source_v,
            .remedy = battery.dead_cells > 0
                          ? words("Replace the battery: a shorted cell takes no charge.")
                          : words("Charge the battery, then try again.")};
}

std::string supplyWords(const Facts& facts, const Culprit& culprit) {
    const Element* element = findElement(facts, culprit.name);
    if (element != nullptr && !element->openings.empty())
        return words("{} opens by itself now and then, and then nothing arrives", culprit.name);
    EBBLINE_ASSERT(facts.evidence.start.ledger.has_value(), "a culprit comes from a ledger");
    const Ledger& ledger = *facts.evidence.start.ledger;
    return words("{} takes {} V of the {} V lost between battery and fridge, {} V of it needlessly",
                 culprit.name,
                 text::fixed(culprit.volts, 2),
                 text::fixed(ledger.source_v - ledger.controller_v, 2),
                 text::fixed(culprit.avoidable_v, 2));
}

/// Says of the action whether it brings it above its cut-out; nothing where it already starts.
Headline withDoubt(Headline headline, const Facts& facts, double gain_v) {
    if (facts.evidence.start.outcome != Outcome::Trips)
        return headline;
    const auto& headroom_v = facts.evidence.verdict.headroom_v;
    headline.falls_short = headroom_v && gain_v < -*headroom_v;
    if (!headroom_v)
        headline.action += " " + words("Whether that is enough only another start can say.");
    else if (headline.falls_short)
        headline.action += " " + words("That alone is not enough.");
    else if (gain_v < estimate_band_v - *headroom_v)
        headline.action += " " + words("That alone is only just enough.");
    return headline;
}

/// The supply is what keeps it from starting, or nearly does.
Headline blameSupply(const Facts& facts, const std::vector<Loss>& losses, const std::string& lead) {
    const std::vector<Culprit> culprits = gatherCulprits(facts, losses);
    const auto worst = std::ranges::max_element(culprits, {}, &Culprit::avoidable_v);
    const Culprit flat = findFlatBattery(facts);
    const double worst_v = worst == culprits.end() ? 0 : worst->avoidable_v;
    if (flat.avoidable_v > std::max(worst_v, worth_naming_v))
        return withDoubt({lead + words("the battery rests at {} V, {} V below full.",
                                       text::fixed(flat.volts, 2),
                                       text::fixed(flat.avoidable_v, 2)),
                          flat.remedy,
                          flat.name},
                         facts,
                         flat.avoidable_v);
    if (worst_v <= worth_naming_v)
        return {lead + words("nothing on the way is worse than it need be; the supply as drawn is "
                             "too weak for this fridge."),
                words("Look for a shorter way or a stronger battery."),
                ""};
    return withDoubt({lead + supplyWords(facts, *worst) + ".", worst->remedy, worst->name},
                     facts,
                     worst->avoidable_v);
}

std::string listNames(const Facts& facts, const std::vector<int>& elements) {
    std::string names;
    for (const int element : elements)
        names += (names.empty() ? "" : ", ") + facts.element(element).name;
    return names;
}

Headline blameOpenLoop(const Facts& facts) {
    const std::string open = listNames(facts, facts.survey.interruptions);
    if (open.empty())
        return {words("No voltage arrives: no closed loop leads from a battery to the fridge."),
                words("Follow plus and minus from the battery to the fridge."),
                ""};
    const Element& first = facts.element(facts.survey.interruptions.front());
    const bool is_fuse = first.kind == ElementKind::Fuse || first.kind == ElementKind::Breaker;
    return {facts.survey.interruptions.size() > 1 ? words("No voltage arrives: {} are open.", open)
                                                  : words("No voltage arrives: {} is open.", open),
            is_fuse ? words("Find what opened {} before you renew or set it again.", first.name)
                    : words("Close {}.", first.name),
            first.name};
}

Headline blameFuse(const std::vector<RuleFinding>& findings) {
    for (const RuleFinding& finding : findings)
        if (finding.rule == "fuse-carries-start" && finding.state == RuleState::Broken)
            return {
                words("{} opens: it is too small for this fridge. {}", finding.on, finding.reason),
                words("Fit a larger one, if the cable behind it allows."),
                finding.on};
    return {words("A fuse opens before the fridge runs, though the start itself does not ask too "
                  "much."),
            words("Look for a short, or for what else it feeds, before you renew it."),
            ""};
}

struct Danger {
    std::string_view rule;
    const char* action;
};
// Not the breaking capacity: it rests on a battery's resistance from memory, and at the posts of a
// usual battery no blade fuse has enough.
constexpr std::array<Danger, 5> dangers{
    {{"fuse-present", phrase("Fit a fuse in the plus side, close to the battery.")},
     {"unfused-branch", phrase("Fit a fuse in its feed, close to the battery.")},
     {"fuse-protects-conductor", phrase("Fit a smaller fuse, or lay a thicker cable.")},
     {"dead-short", phrase("Fit a smaller fuse, or lay a thicker cable.")},
     {"current-capacity", phrase("Lay a thicker cable, or lay it where it is cooler.")}}};

/// Starts; what then comes first is what could burn.
Headline blameDanger(const Facts& facts, const std::vector<RuleFinding>& findings) {
    for (const Danger& danger : dangers)
        for (const RuleFinding& finding : findings)
            if (finding.rule == danger.rule && finding.state == RuleState::Broken)
                return {words("Starts, but is not safe as drawn: {} breaks the rule {}. {}",
                              finding.on,
                              finding.rule,
                              finding.reason),
                        words(danger.action),
                        finding.on,
                        true};
    return {words("Starts, with {} V to spare above its low-voltage cut-out.",
                  text::fixed(facts.evidence.verdict.headroom_v, 2)),
            "",
            facts.drawn().subject};
}

Headline blameOutcome(const Facts& facts) {
    const std::string& fridge = facts.drawn().subject;
    switch (facts.evidence.start.outcome) {
    case Outcome::Stalls:
        if (auto machine = findMachineFault(facts))
            return {words("Does not start: the compressor stalls, {}; the supply is not what stops "
                          "it.",
                          machine->cause),
                    machine->action,
                    fridge};
        return {words("Does not start: the compressor stalls; the supply is not what stops it."),
                words("Let the pressures equalise for some minutes and try again."),
                fridge};
    case Outcome::SupplyLow:
        return {words("Does nothing: the supply never reaches its cut-in of {} V.",
                      text::fixed(facts.evidence.verdict.cut_in_v, 2)),
                words("Measure the battery at rest, and charge it."),
                fridge};
    case Outcome::ThermostatOpen:
        return {words("Does nothing: the thermostat never calls."),
                words("Set it colder, then check its two wires."),
                fridge};
    case Outcome::Reversed:
        return {words("Does nothing: plus and minus are exchanged at the fridge."),
                words("Isolate, then exchange the two wires."),
                fridge};
    case Outcome::WrongVoltage:
        return {words("Does nothing: this supply is not its voltage."),
                words("Compare the unit's nominal voltage with the battery's."),
                fridge};
    case Outcome::NotDriven:
        return blameController(facts);
    default:
        return blameOpenLoop(facts);
    }
}

} // namespace

Headline headline(const Network& network,
                  const Catalogues& catalogues,
                  const Evidence& evidence,
                  const RuleSettings& settings) {
    const Facts facts = collectFacts(network, catalogues, evidence, settings);
    const auto losses = findLosses(network, catalogues, evidence, settings);
    switch (evidence.start.outcome) {
    case Outcome::Trips:
        if (auto own = blameUnit(facts))
            return *own;
        return blameSupply(facts, losses, words("Does not start:") + " ");
    case Outcome::Starts:
        if (auto own = blameUnit(facts))
            return *own;
        return evidence.verdict.margin == Margin::Clear
                   ? blameDanger(facts, judgeRules(network, catalogues, evidence, settings))
                   : blameSupply(facts, losses, words("Starts, but only just:") + " ");
    case Outcome::FuseOpens:
        return blameFuse(judgeRules(network, catalogues, evidence, settings));
    default:
        return blameOutcome(facts);
    }
}

} // namespace ebbline::verdict
