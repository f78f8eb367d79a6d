// SPDX-License-Identifier: MIT
// A dead short at the fridge: opening time of the fuse against the heat a conductor withstands.
#include "rule_source.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <limits>

namespace ebbline::verdict {
namespace {

constexpr double adiabatic_s = 5; // longer shorts give heat off: the formula ends here

/// The loop as hot as its insulation may be: the least current.
double hotLoopOhm(const Facts& facts) {
    const double ambient_c = facts.drawn().surroundings.ambient_c;
    const double hot = (234.5 + facts.settings.insulation_c) / (234.5 + ambient_c);
    double ohm = 0;
    for (const auto& way : {facts.out(), facts.back()})
        for (const int index : way) {
            const Element& element = facts.element(index);
            ohm += element.ohm * (element.kind == ElementKind::Conductor ? hot : 1);
        }
    return ohm;
}

/// k for the insulation: the smaller of the entries on either side of its rating.
const Withstand* findWithstand(const Facts& facts) {
    const auto& table = facts.tables().withstands;
    const auto above = table.lower_bound(facts.settings.insulation_c);
    if (above == table.end() || above->first == facts.settings.insulation_c)
        return above == table.end() ? nullptr : &above->second;
    if (above == table.begin())
        return &above->second;
    const Withstand& below = std::prev(above)->second;
    return below.k < above->second.k ? &below : &above->second;
}

struct Endurance {
    double seconds = std::numeric_limits<double>::infinity();
    std::string conductor; ///< that withstands it least long; empty: all carry it for ever
};

Endurance findEndurance(const Facts& facts, double amps, double k) {
    Endurance least;
    for (const auto& way : {facts.out(), facts.back()})
        for (const Conductor& conductor : facts.conductors(way)) {
            const auto capacity = facts.capacityOf(conductor);
            const double seconds = withstandHeat(k, conductor.area_mm2) / (amps * amps);
            if ((!capacity || amps > capacity->amps) && seconds < least.seconds)
                least = {seconds, conductor.name};
        }
    return least;
}

/// The fuse of the feed that opens first, by its longest published time.
struct Opening {
    int fuse = -1;
    std::optional<double> seconds;
    const FuseKind* kind = nullptr;
};

/// A fuse whose style stands in no table is left out.
Opening findOpening(const Facts& facts, double amps) {
    Opening first;
    for (const int fuse : facts.protectors(facts.out())) {
        const FuseKind* kind = findFuseKind(facts, fuse);
        if (!facts.isFuse(fuse) || kind == nullptr)
            continue;
        const auto seconds = findFuseLimit(*kind, amps / facts.ratingOf(fuse)).longest_s;
        if (first.fuse < 0 || (seconds && (!first.seconds || *seconds < *first.seconds)))
            first = {fuse, seconds, kind};
    }
    return first;
}

bool hasUnknownFuse(const Facts& facts) {
    return std::ranges::any_of(facts.protectors(facts.out()), [&](int fuse) {
        return facts.isFuse(fuse) && findFuseKind(facts, fuse) == nullptr;
    });
}

std::string currentWords(const Facts& facts, int fuse, double amps) {
    return words("A dead short at the fridge draws {} A from a tired, nearly flat battery through "
                 "hot cable, {} times the rating",
                 text::fixed(amps, 0),
                 text::fixed(amps / facts.ratingOf(fuse), 1));
}

void holdAgainstHeat(const Facts& facts,
                     const Opening& opening,
                     double amps,
                     const Withstand& heat,
                     RuleFinding& finding) {
    const Endurance endurance = findEndurance(facts, amps, heat.k);
    const std::string draws = currentWords(facts, opening.fuse, amps);
    finding.on = facts.element(opening.fuse).name;
    finding.value = opening.seconds;
    if (!endurance.conductor.empty())
        finding.limit = endurance.seconds;
    if (!opening.seconds) {
        finding.state = RuleState::Broken;
        finding.reason = words("{}: by its standard it need never open.", draws);
    } else if (*opening.seconds <= endurance.seconds) {
        finding.state = RuleState::Kept;
        finding.reason = endurance.conductor.empty()
                             ? words("{}; every conductor carries that for ever.", draws)
                             : words("{}; the weakest, {}, withstands that longer than the fuse "
                                     "takes.",
                                     draws,
                                     endurance.conductor);
    } else if (endurance.seconds <= adiabatic_s) {
        finding.state = RuleState::Broken;
        finding.reason = words("{}; {} is past {} °C before it opens.",
                               draws,
                               endurance.conductor,
                               text::figure(heat.final_c));
    } else {
        finding.reason =
            words("{}; beyond 5 s a conductor gives off heat, and no published formula "
                  "for that is used here.",
                  draws);
    }
}

RuleFinding judgeShortAtFridge(const Facts& facts) {
    RuleFinding finding{.rule = "dead-short", .on = facts.drawn().subject, .unit = "s"};
    const auto source = findWeakestSource(facts);
    const Withstand* heat = findWithstand(facts);
    if (!source || hasUnknownFuse(facts) || heat == nullptr) {
        finding.reason = source ? words("No table of opening times or of withstand is loaded for "
                                        "this insulation.")
                                : whyNoSource(facts);
        return finding;
    }
    const double amps = source->volts / (source->ohm + hotLoopOhm(facts));
    const Opening opening = findOpening(facts, amps);
    finding.source = heat->source.text + "; " + source->text;
    finding.unchecked = heat->source.from_memory || source->unchecked;
    if (opening.kind != nullptr) {
        finding.source = opening.kind->source.text + "; " + finding.source;
        finding.unchecked = finding.unchecked || opening.kind->source.from_memory;
    }
    if (opening.fuse >= 0)
        holdAgainstHeat(facts, opening, amps, *heat, finding);
    else if (!facts.protectors(facts.out()).empty())
        finding.reason = words("The time-current curve of its breaker is not drawn.");
    else {
        finding.state = RuleState::Broken;
        finding.reason =
            words("A dead short at the fridge draws {} A, and nothing in the feed opens.",
                  text::fixed(amps, 0));
    }
    return finding;
}

} // namespace

void judgeDeadShort(const Facts& facts, Findings& findings) {
    if (facts.network.loop)
        findings.push_back(judgeShortAtFridge(facts));
}

} // namespace ebbline::verdict
