// SPDX-License-Identifier: MIT
// One start as plain text: the sentence first, then the figures behind it.
#include "ebbline/text.h"

#include "remedies.h"

#include "ebbline/report.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>

namespace ebbline::report {
namespace {

using text::fixed;

template <class... Arguments>
void line(std::string& out, fmt::format_string<Arguments...> format, Arguments&&... arguments) {
    fmt::format_to(std::back_inserter(out), format, std::forward<Arguments>(arguments)...);
    out += '\n';
}

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

void writeHead(const Inquiry& inquiry, std::string& out) {
    const Examination& examination = inquiry.examination;
    const Installation& installation = examination.network.installation;
    line(out, "{}", text::escapeControls(installation.title));
    line(out, "The fridge {}{}.", sentence(examination.start.outcome), marginWords(examination));
    if (examination.verdict.margin != Margin::Clear)
        out += writeHeadline(inquiry.headline);
}

void writeLowest(const Examination& examination, std::string& out) {
    const Start& start = examination.start;
    const Verdict& verdict = examination.verdict;
    if (!start.lowest_v)
        return;
    line(out, "");
    line(out,
         "Lowest at its terminals  {} V, {} s after the scene's time 0",
         fixed(start.lowest_v, 2),
         fixed(start.lowest_at_s, 2));
    line(out,
         "Low-voltage cut-out      {} V; cut-in {} V",
         fixed(verdict.cut_out_v, 2),
         fixed(verdict.cut_in_v, 2));
    if (start.outcome == Outcome::Trips && verdict.headroom_v)
        line(out,
             "Had it been held on      it would have fallen to {} V, {} V too low",
             fixed(verdict.held_off_lowest_v, 2),
             fixed(-*verdict.headroom_v, 2));
    else if (verdict.headroom_v)
        line(out, "To spare above cut-out   {} V", fixed(verdict.headroom_v, 2));
    else
        line(out, "To spare above cut-out   not defined: {}", verdict.no_headroom_reason);
}

void writeLoop(const Examination& examination, std::string& out) {
    if (!examination.network.loop)
        return;
    const double loop_mohm = examination.loop_ohm * 1e3;
    std::string limit = "";
    if (examination.loop_limit_ohm)
        limit = fmt::format("; this fridge on this battery starts with up to {} mΩ",
                            fixed(*examination.loop_limit_ohm * 1e3, 0));
    else if (examination.start.outcome == Outcome::Trips)
        limit = "; on this battery it would not start with none at all";
    line(out, "Supply loop              {} mΩ out and back{}", fixed(loop_mohm, 0), limit);
}

void writeCurrents(const Start& start, std::string& out) {
    if (start.peak_a)
        line(out, "Highest start current    {} A", fixed(start.peak_a, 1));
    if (start.running_a)
        line(out,
             "Running at the end       {} A at {} V",
             fixed(start.running_a, 1),
             fixed(start.running_v, 2));
    if (start.inrush_a)
        line(out, "When power arrives       {} A", fixed(start.inrush_a, 0));
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

std::size_t nameWidth(const Ledger& ledger) {
    std::size_t width = 7;
    for (const LedgerRow& row : ledger.rows)
        width = std::max(width, text::width(row.element));
    return width;
}

/// What of a row need not be; "-" where that is next to nothing.
std::string needless(const std::vector<Loss>& losses, std::size_t row) {
    constexpr double least_v = 0.005;
    return row < losses.size() && losses[row].avoidable_v >= least_v
               ? fixed(losses[row].avoidable_v, 3)
               : "-";
}

/// The sums behind the largest losses, as one can do them on paper.
void writeSums(const std::vector<Loss>& losses, std::string& out) {
    constexpr std::size_t most = 3;
    std::vector<const Loss*> sorted;
    for (const Loss& loss : losses)
        if (loss.side != Side::Source && !loss.sum.empty())
            sorted.push_back(&loss);
    std::ranges::sort(sorted, std::greater<>(), [](const Loss* loss) { return loss->volts; });
    sorted.resize(std::min(sorted.size(), most));
    for (const Loss* loss : sorted)
        line(out, "  On paper: {}: {} ({})", loss->element, loss->sum, nameOf(loss->basis));
}

/// With a charging source on the fridge may stand above the battery at rest.
std::string ledgerHeading(const Ledger& ledger) {
    const double lost_v = ledger.source_v - ledger.controller_v;
    const std::string ends = "battery at rest " + fixed(ledger.source_v, 2) + " V, fridge " +
                             fixed(ledger.controller_v, 2) + " V";
    if (lost_v < 0)
        return "Way from battery to fridge at that moment (" + ends +
               ": another source feeds it; minus: current towards the battery)";
    return "Where the " + fixed(lost_v, 2) + " V is lost at that moment (" + ends + ")";
}

void writeLedger(const Inquiry& inquiry, std::string& out) {
    const Start& start = inquiry.examination.start;
    if (!start.ledger)
        return;
    const Ledger& ledger = *start.ledger;
    const std::size_t width = nameWidth(ledger);
    line(out, "");
    line(out, "{}", ledgerHeading(ledger));
    for (std::size_t i = 0; i < ledger.rows.size(); ++i) {
        const LedgerRow& row = ledger.rows[i];
        line(out,
             "  {:<{}}  {:<15}  {:>6} V, needless {:>5}  {:>7} mΩ  {:>5} W",
             row.element,
             width,
             sideWords(row.side),
             fixed(row.volts, 3),
             needless(inquiry.losses, i),
             row.ohms ? fixed(*row.ohms * 1e3, 1) : std::string("-"),
             fixed(row.watts(), 1));
    }
    writeSums(inquiry.losses, out);
    line(out,
         "  closes within {} mV at every stored instant that it conducts",
         fixed(start.ledger_error_v * 1e3, 3));
}

void writeRemedies(const std::vector<Remedy>& remedies, std::string& out) {
    if (remedies.empty())
        return;
    line(out, "");
    line(out, "What would make it start, each tried by itself");
    for (const Remedy& remedy : remedies)
        line(
            out, "  {:<8}  {}", isRepair(remedy.kind) ? "repair" : "redesign", remedyWords(remedy));
}

void writeMeters(const Start& start, std::string& out) {
    if (start.meters.empty())
        return;
    line(out, "");
    line(out, "What the meters show");
    for (const MeterReading& reading : start.meters) {
        const std::string then =
            reading.at_lowest_v ? fixed(reading.at_lowest_v, 2) + " V at that moment, " : "";
        line(out,
             "  {}  {}lowest {} V, highest {} V",
             reading.meter,
             then,
             fixed(reading.lowest_v, 2),
             fixed(reading.highest_v, 2));
    }
}

void writeEvents(const Start& start, std::string& out) {
    line(out, "");
    line(out, "What happened (simulated to {} s)", fixed(start.horizon_s, 1));
    for (const StartEvent& event : start.events)
        line(out, "  {:>8} s  {}", fixed(event.at_s, 2), nameOf(event.what));
    if (start.events.empty())
        line(out, "  nothing");
}

void writeAssumptions(const Examination& examination, std::string& out) {
    const Installation& installation = examination.network.installation;
    const auto& unit = std::get<Controller>(installation.findPart(installation.subject)->body);
    line(out, "");
    line(out,
         "Assumed: ambient {} °C; head pressure builds in {} s and bleeds in {} s (ESTIMATE); the",
         fixed(installation.surroundings.ambient_c, 0),
         fixed(unit.build_s, 0),
         fixed(unit.bleed_s, 0));
    line(out, "ripple of the switching current, about 0.2 V, is not in the lowest voltage.");
}

void writeCautions(std::string& out) {
    line(out, "");
    line(out,
         "Care: a battery can drive over a thousand amperes through a slipped spanner. Take rings "
         "off,");
    line(out,
         "fuse every lead at the battery, isolate before you unplug, let hot cable and the "
         "compressor");
    line(out,
         "cool, leave the refrigerant to licensed people. Local codes and licensed practice come "
         "first.");
}

} // namespace

std::string writeText(const Inquiry& inquiry) {
    const Examination& examination = inquiry.examination;
    std::string out;
    writeHead(inquiry, out);
    writeLowest(examination, out);
    writeLoop(examination, out);
    writeCurrents(examination.start, out);
    writeLedger(inquiry, out);
    writeRemedies(inquiry.remedies, out);
    writeMeters(examination.start, out);
    writeEvents(examination.start, out);
    out += "\n" + writeRules(inquiry.rules);
    writeAssumptions(examination, out);
    writeCautions(out);
    return out;
}

} // namespace ebbline::report
