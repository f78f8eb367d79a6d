// SPDX-License-Identifier: MIT
// What is said of a start in more than one place: on the terminal and in the page that travels.
#include "words.h"

#include "ebbline/text.h"

#include <fmt/core.h>

#include <array>
#include <utility>

namespace ebbline::report {
namespace {

using text::fixed;

std::string_view sentence(Outcome outcome) {
    switch (outcome) {
    case Outcome::Starts:
        return "starts";
    case Outcome::Trips:
        return "does not start: its low-voltage cut-out acts";
    case Outcome::Stalls:
        return "does not start: the compressor stalls";
    case Outcome::FuseOpens:
        return "does not start: a fuse or breaker opens";
    case Outcome::NotPowered:
        return "does nothing: no voltage arrives";
    case Outcome::SupplyLow:
        return "does nothing: the supply never reaches its cut-in";
    case Outcome::ThermostatOpen:
        return "does nothing: the thermostat never calls";
    case Outcome::Reversed:
        return "does nothing: plus and minus are exchanged";
    case Outcome::WrongVoltage:
        return "does nothing: this is not its voltage";
    }
    return "";
}

std::string_view marginWords(const Examination& examination) {
    if (examination.start.outcome != Outcome::Starts)
        return "";
    return examination.verdict.margin == Margin::Clear ? ", clear of the cut-out"
                                                       : ", but only just";
}

Fact headroomFact(const Examination& examination) {
    const Verdict& verdict = examination.verdict;
    if (!verdict.headroom_v)
        return {"To spare above cut-out", "not defined: " + verdict.no_headroom_reason};
    if (examination.start.outcome == Outcome::Trips)
        return {"Had it been held on",
                fmt::format("it would have fallen to {} V, {} V too low",
                            fixed(verdict.held_off_lowest_v, 2),
                            fixed(-*verdict.headroom_v, 2))};
    return {"To spare above cut-out", fixed(verdict.headroom_v, 2) + " V"};
}

Fact loopFact(const Examination& examination) {
    const double loop_mohm = examination.loop_ohm * 1e3;
    std::string words = fixed(loop_mohm, 0) + " mΩ out and back";
    if (examination.loop_limit_ohm) {
        const double limit_mohm = *examination.loop_limit_ohm * 1e3;
        words += fmt::format("; this fridge on this battery starts with up to {} mΩ",
                             fixed(limit_mohm, 0));
        if (loop_mohm > limit_mohm && examination.start.outcome == Outcome::Trips)
            words += fmt::format(": {} mΩ too many", fixed(loop_mohm - limit_mohm, 0));
    } else if (examination.start.outcome == Outcome::Trips) {
        words += "; on this battery it would not start with none at all";
    }
    return {"Supply loop", words};
}

int decimalsOf(const std::string& unit) {
    return unit == "%" || unit == "A" ? 1 : 2;
}

} // namespace

std::string outcomeWords(const Examination& examination) {
    return fmt::format(
        "The fridge {}{}.", sentence(examination.start.outcome), marginWords(examination));
}

std::vector<Fact> findFacts(const Examination& examination) {
    const Start& start = examination.start;
    const Verdict& verdict = examination.verdict;
    std::vector<Fact> facts;
    const auto say = [&](const char* label, std::string words) {
        facts.push_back({label, std::move(words)});
    };
    if (start.lowest_v) {
        say("Lowest at its terminals",
            fmt::format("{} V, {} s after the scene's time 0",
                        fixed(start.lowest_v, 2),
                        fixed(start.lowest_at_s, 2)));
        say("Low-voltage cut-out",
            fmt::format(
                "{} V; cut-in {} V", fixed(verdict.cut_out_v, 2), fixed(verdict.cut_in_v, 2)));
        facts.push_back(headroomFact(examination));
    }
    if (examination.network.loop)
        facts.push_back(loopFact(examination));
    if (start.peak_a)
        say("Highest start current", fixed(start.peak_a, 1) + " A");
    if (start.running_a)
        say("Running at the end",
            fmt::format("{} A at {} V", fixed(start.running_a, 1), fixed(start.running_v, 2)));
    if (start.inrush_a)
        say("When power arrives", fixed(start.inrush_a, 0) + " A");
    return facts;
}

std::string_view sideWords(Side side) {
    switch (side) {
    case Side::Source:
        return "battery, inside";
    case Side::Out:
        return "plus side";
    case Side::Back:
        return "minus side";
    }
    return "";
}

std::string ledgerWords(const Ledger& ledger) {
    const double lost_v = ledger.source_v - ledger.controller_v;
    const std::string ends = fmt::format("battery at rest {} V, fridge {} V",
                                         fixed(ledger.source_v, 2),
                                         fixed(ledger.controller_v, 2));
    if (lost_v < 0)
        return fmt::format("Way from battery to fridge at that moment ({}: another source feeds "
                           "it; minus: current towards the battery)",
                           ends);
    return fmt::format("Where the {} V is lost at that moment ({})", fixed(lost_v, 2), ends);
}

std::string closingWords(const Start& start) {
    return fmt::format("closes within {} mV at every stored instant that it conducts",
                       fixed(start.ledger_error_v * 1e3, 3));
}

std::string needlessWords(const std::vector<Loss>& losses, std::size_t row) {
    constexpr double least_v = 0.005;
    return row < losses.size() && losses[row].avoidable_v >= least_v
               ? fixed(losses[row].avoidable_v, 3)
               : "-";
}

std::string tidyUnits(std::string sentence) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 2> units{
        {{" mm2", " mm²"}, {" mohm", " mΩ"}}};
    for (const auto& [plain, tidy] : units)
        for (std::size_t at = sentence.find(plain); at != std::string::npos;
             at = sentence.find(plain, at + tidy.size()))
            sentence.replace(at, plain.size(), tidy);
    return sentence;
}

std::string stateWords(const RuleFinding& finding) {
    switch (finding.state) {
    case RuleState::Kept:
        return finding.rule.starts_with("drop-") ? "kept (drop only)" : "kept";
    case RuleState::Broken:
        return "BROKEN";
    case RuleState::NotJudged:
        return "not judged";
    }
    return "";
}

std::string figureWords(const RuleFinding& finding) {
    const int decimals = decimalsOf(finding.unit);
    if (!finding.value)
        return "";
    std::string words = fixed(finding.value, decimals) + " " + finding.unit;
    if (finding.limit)
        words += std::string(", ") + (finding.limit_is_least ? "at least " : "at most ") +
                 fixed(finding.limit, decimals) + " " + finding.unit;
    return words;
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
    return {fmt::format("Ambient {} °C.", fixed(installation.surroundings.ambient_c, 0)),
            fmt::format("Head pressure builds in {} s and bleeds in {} s (ESTIMATE).",
                        fixed(unit.build_s, 0),
                        fixed(unit.bleed_s, 0)),
            "The ripple of the switching current, about 0.2 V, is not in the lowest voltage."};
}

std::vector<std::string> cautionWords() {
    return {
        "A battery can drive over a thousand amperes through a slipped spanner: take rings off, "
        "use insulated tools, make no sparks near a charging battery.",
        "Fuse every lead at the battery: nothing else stops a short circuit.",
        "Isolate and wait before you unplug or undo anything.",
        "A bad joint or a thin cable may be hot enough to burn; let cable and compressor cool.",
        "Refrigerant is for licensed people.",
        "Local codes and licensed practice come first."};
}

} // namespace ebbline::report
