// SPDX-License-Identifier: MIT
// What is said of a start in more than one place: on the terminal and in the page that travels.
#include "words.h"

#include "ebbline/network.h"
#include "ebbline/running.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ebbline::report {
namespace {

using text::fixed;

/// The whole sentence; of one that starts by its margin.
const char* sentence(const Examination& examination) {
    switch (examination.start.outcome) {
    case Outcome::Starts:
        if (isSlow(examination))
            return phrase("The fridge starts, then runs too slowly.");
        return examination.verdict.margin == Margin::Clear
                   ? phrase("The fridge starts, clear of the cut-out.")
                   : phrase("The fridge starts, but only just.");
    case Outcome::Trips:
        return phrase("The fridge does not start: its low-voltage cut-out acts.");
    case Outcome::Stalls:
        return phrase("The fridge does not start: the compressor stalls.");
    case Outcome::FuseOpens:
        return examination.start.reached_speed
                   ? phrase("The fridge starts, then a fuse or breaker opens.")
                   : phrase("The fridge does not start: a fuse or breaker opens.");
    case Outcome::NotPowered:
        return phrase("The fridge does nothing: no voltage arrives.");
    case Outcome::SupplyLow:
        return phrase("The fridge does nothing: the supply never reaches its cut-in.");
    case Outcome::ThermostatOpen:
        return phrase("The fridge does nothing: the thermostat never calls.");
    case Outcome::Reversed:
        return phrase("The fridge does nothing: plus and minus are exchanged.");
    case Outcome::WrongVoltage:
        return phrase("The fridge does nothing: this is not its voltage.");
    case Outcome::NotDriven:
        return phrase("The fridge does nothing: its own controller keeps it off.");
    }
    return "";
}

Fact headroomFact(const Examination& examination) {
    const Verdict& verdict = examination.verdict;
    if (!verdict.headroom_v)
        return {words("To spare above cut-out"),
                words("not defined: {}", words(verdict.no_headroom_reason.c_str()))};
    if (examination.start.outcome == Outcome::Trips)
        return {words("Had it been held on"),
                words("its filtered voltage would have fallen to {} V, {} V too low",
                      fixed(verdict.held_off_lowest_v, 2),
                      fixed(-*verdict.headroom_v, 2))};
    return {words("To spare above cut-out"),
            words("{} V, by the filtered voltage", fixed(verdict.headroom_v, 2))};
}

Fact loopFact(const Examination& examination) {
    const double loop_mohm = examination.loop_ohm * 1e3;
    const bool trips = examination.start.outcome == Outcome::Trips;
    std::string loop = words("{} mΩ out and back", fixed(loop_mohm, 0));
    if (examination.loop_limit_ohm) {
        const double limit_mohm = *examination.loop_limit_ohm * 1e3;
        loop = words(
            "{}; this fridge on this battery starts with up to {} mΩ", loop, fixed(limit_mohm, 0));
        if (loop_mohm > limit_mohm && trips)
            loop = words("{}: {} mΩ too many", loop, fixed(loop_mohm - limit_mohm, 0));
    } else if (trips) {
        loop = words("{}; on this battery it would not start with none at all", loop);
    }
    return {words("Supply loop"), loop};
}

/// A value of a rule; a cross-section with its nearest gauge for who reads gauges: alone it would
/// hide by how much a rule is broken.
std::string withUnit(double value, const std::string& unit) {
    const Sizes sizes = reader().sizes;
    if (unit == "mm2" && (sizes == Sizes::Awg || sizes == Sizes::Both))
        return network::sizeWords({SizeScale::Mm2, std::round(value * 100) / 100}, Sizes::Both);
    return fixed(value, unit == "%" || unit == "A" ? 1 : 2) + " " + unit;
}

} // namespace

bool isSlow(const Examination& examination) {
    const Installation& installation = examination.network.installation;
    const Part* part = installation.findPart(installation.subject);
    const auto* unit = part == nullptr ? nullptr : std::get_if<Controller>(&part->body);
    return unit != nullptr && start::isSlow(examination.start, *unit);
}

std::string outcomeWords(const Examination& examination) {
    return words(sentence(examination));
}

std::vector<Fact> findFacts(const Examination& examination) {
    const Start& start = examination.start;
    const Verdict& verdict = examination.verdict;
    std::vector<Fact> facts;
    const auto say = [&](std::string label, std::string said) {
        facts.push_back({std::move(label), std::move(said)});
    };
    if (start.lowest_v) {
        say(words("Lowest at its terminals"),
            words(start.retries > 0
                      ? phrase("{} V, {} s after the scene's time 0, at the first try")
                      : phrase("{} V, {} s after the scene's time 0"),
                  fixed(start.lowest_v, 2),
                  fixed(start.lowest_at_s, 2)));
        say(words("Low-voltage cut-out"),
            words("{} V; cut-in {} V", fixed(verdict.cut_out_v, 2), fixed(verdict.cut_in_v, 2)));
        facts.push_back(headroomFact(examination));
    }
    if (examination.network.loop)
        facts.push_back(loopFact(examination));
    if (start.peak_a)
        say(words("Highest start current"), fixed(start.peak_a, 1) + " A");
    if (const auto running = start::findRunningTry(start); running && running->number > 1)
        say(words("A later try"),
            words("try {} reaches full speed, {} s after the scene's time 0",
                  running->number,
                  fixed(running->at_s, 2)));
    if (start.running_a)
        say(start.outcome == Outcome::FuseOpens ? words("Running until then")
                                                : words("Running at the end"),
            words("{} A at {} V", fixed(start.running_a, 1), fixed(start.running_v, 2)));
    if (start.inrush_a)
        say(words("When power arrives"), fixed(start.inrush_a, 0) + " A");
    return facts;
}

std::string sideWords(Side side) {
    switch (side) {
    case Side::Source:
        return words("battery, inside");
    case Side::Out:
        return words("plus side");
    case Side::Back:
        return words("minus side");
    }
    return "";
}

std::string ledgerWords(const Ledger& ledger) {
    const double lost_v = ledger.source_v - ledger.controller_v;
    const std::string ends = words("battery at rest {} V, fridge {} V",
                                   fixed(ledger.source_v, 2),
                                   fixed(ledger.controller_v, 2));
    if (lost_v < 0)
        return words("Way from battery to fridge at that moment ({}: another source feeds "
                     "it; minus: current towards the battery)",
                     ends);
    return words("Where the {} V is lost at that moment ({})", fixed(lost_v, 2), ends);
}

std::string closingWords(const Start& start) {
    return words("closes within {} mV at every stored instant that it conducts",
                 fixed(start.ledger_error_v * 1e3, 3));
}

std::string meterWords(const MeterReading& reading) {
    const std::string range =
        words("lowest {} V, highest {} V", fixed(reading.lowest_v, 2), fixed(reading.highest_v, 2));
    return reading.at_lowest_v
               ? words("{} V at that moment, {}", fixed(reading.at_lowest_v, 2), range)
               : range;
}

std::string needlessWords(const std::vector<Loss>& losses, std::size_t row) {
    constexpr double least_v = 0.005;
    return row < losses.size() && losses[row].avoidable_v >= least_v
               ? fixed(losses[row].avoidable_v, 3)
               : "-";
}

std::string stateWords(const RuleFinding& finding) {
    switch (finding.state) {
    case RuleState::Kept:
        return finding.rule.starts_with("drop-") ? words("kept (drop only)") : words("kept");
    case RuleState::Broken:
        return words("BROKEN");
    case RuleState::NotJudged:
        return words("not judged");
    }
    return "";
}

std::string figureWords(const RuleFinding& finding) {
    if (!finding.value)
        return "";
    std::string value = withUnit(*finding.value, finding.unit);
    if (!finding.limit)
        return value;
    const std::string limit = withUnit(*finding.limit, finding.unit);
    return finding.limit_is_least ? words("{}, at least {}", value, limit)
                                  : words("{}, at most {}", value, limit);
}

std::vector<const RuleFinding*> sortByWeight(std::span<const RuleFinding> findings) {
    std::vector<const RuleFinding*> sorted;
    for (const RuleState state : {RuleState::Broken, RuleState::NotJudged, RuleState::Kept})
        for (const RuleFinding& finding : findings)
            if (finding.state == state)
                sorted.push_back(&finding);
    return sorted;
}

std::vector<std::string> assumptionWords(const Examination& examination) {
    const Installation& installation = examination.network.installation;
    const auto& unit = std::get<Controller>(installation.findPart(installation.subject)->body);
    return {words("Ambient {} °C.", fixed(installation.surroundings.ambient_c, 0)),
            words("Head pressure builds in {} s and bleeds in {} s (ESTIMATE).",
                  fixed(unit.build_s, 0),
                  fixed(unit.bleed_s, 0)),
            words("The ripple of the switching current, about {} V, is not in the lowest voltage.",
                  fixed(0.2, 1))};
}

std::string basisWords(Basis basis) {
    return basis == Basis::Measured ? words("as stated") : term(nameOf(basis));
}

std::string ohmsWords(const LedgerRow& row) {
    if (!row.ohms)
        return "-";
    return row.isOpen() ? words("open") : fixed(*row.ohms * 1e3, 1);
}

std::string careWords() {
    return words("Isolate before you undo or touch anything; see Care.");
}

std::string redesignWords(const std::vector<Remedy>& remedies) {
    using enum RemedyKind;
    const bool has_poor_joint = std::ranges::any_of(remedies, [](const Remedy& remedy) {
        return remedy.kind == RemakeJoint || remedy.kind == RemakeJoints ||
               remedy.kind == RenewContact || remedy.kind == RenewHolder;
    });
    const bool has_redesign = std::ranges::any_of(remedies, [](const Remedy& remedy) {
        return !isRepair(remedy.kind) && remedy.cure.has_value();
    });
    return has_poor_joint && has_redesign
               ? words("A redesign leaves a poor joint as it is, and hot: remake it all the same.")
               : "";
}

std::vector<std::string> cautionWords() {
    return {
        words("A battery can drive over a thousand amperes through a slipped spanner: take rings "
              "off, use insulated tools, make no sparks near a charging battery."),
        words("Fuse every lead at the battery: nothing else stops a short circuit."),
        words("Isolate and wait before you unplug or undo anything."),
        words("Take a battery's minus off first, and put it on last."),
        words("A bad joint or a thin cable may be hot enough to burn; let cable and compressor "
              "cool."),
        words("Refrigerant is for licensed people."),
        words("Local codes and licensed practice come first.")};
}

} // namespace ebbline::report
