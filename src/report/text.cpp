// SPDX-License-Identifier: MIT
// One start as plain text: the sentence first, then the figures behind it.
#include "ebbline/text.h"

#include "remedies.h"
#include "words.h"

#include "ebbline/report.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <utility>

namespace ebbline::report {
namespace {

using text::fixed;

template <class... Arguments>
void line(std::string& out, fmt::format_string<Arguments...> format, Arguments&&... arguments) {
    fmt::format_to(std::back_inserter(out), format, std::forward<Arguments>(arguments)...);
    out += '\n';
}

void writeHead(const Inquiry& inquiry, std::string& out) {
    const Examination& examination = inquiry.examination;
    const Installation& installation = examination.network.installation;
    line(out, "{}", text::escapeControls(installation.title));
    line(out, "{}", outcomeWords(examination));
    if (examination.verdict.margin != Margin::Clear || isSlow(examination))
        out += writeHeadline(inquiry.headline) +
               (inquiry.headline.action.empty() ? "" : careWords() + "\n");
}

void writeFacts(const Inquiry& inquiry, std::string& out) {
    const Examination& examination = inquiry.examination;
    line(out, "");
    for (const Fact& fact : findFacts(examination))
        line(out, "{:<25}{}", fact.label, fact.words);
    line(out, "{:<25}{}", words("Its lamp"), lampWords(inquiry));
}

std::size_t nameWidth(const Ledger& ledger) {
    std::size_t width = 7;
    for (const LedgerRow& row : ledger.rows)
        width = std::max(width, text::width(row.element));
    return width;
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
        line(out,
             "  {}",
             words("On paper: {}: {} ({})", loss->element, loss->sum, basisWords(loss->basis)));
}

void writeLedger(const Inquiry& inquiry, std::string& out) {
    const Start& start = inquiry.examination.start;
    if (!start.ledger)
        return;
    const Ledger& ledger = *start.ledger;
    const std::size_t width = nameWidth(ledger);
    line(out, "");
    line(out, "{}", ledgerWords(ledger));
    for (std::size_t i = 0; i < ledger.rows.size(); ++i) {
        const LedgerRow& row = ledger.rows[i];
        line(out,
             "{}",
             words("  {:<{}}  {:<15}  {:>6} V, needless {:>5}  {:>7} mΩ  {:>5} W",
                   row.element,
                   width,
                   sideWords(row.side),
                   fixed(row.volts, 3),
                   needlessWords(inquiry.losses, i),
                   ohmsWords(row),
                   fixed(row.watts(), 1)));
    }
    writeSums(inquiry.losses, out);
    line(out, "  {}", closingWords(start));
}

void writeRemedies(const std::vector<Remedy>& remedies, std::string& out) {
    if (remedies.empty())
        return;
    line(out, "");
    line(out, "{}", words("What would make it start, each tried by itself"));
    for (const Remedy& remedy : remedies)
        line(out,
             "  {:<8}  {}",
             isRepair(remedy.kind) ? words("repair") : words("redesign"),
             remedyWords(remedy));
    if (const std::string redesign = redesignWords(remedies); !redesign.empty())
        line(out, "  {}", redesign);
}

void writeMeters(const Start& start, std::string& out) {
    if (start.meters.empty())
        return;
    line(out, "");
    line(out, "{}", words("What the meters show"));
    for (const MeterReading& reading : start.meters)
        line(out, "  {}  {}", reading.meter, meterWords(reading));
}

void writeEvents(const Start& start, std::string& out) {
    line(out, "");
    line(out, "{}", words("What happened (simulated to {} s)", fixed(start.horizon_s, 1)));
    for (const StartEvent& event : start.events)
        line(out, "  {:>8} s  {}", fixed(event.at_s, 2), term(nameOf(event.what)));
    if (start.events.empty())
        line(out, "  {}", words("nothing"));
}

/// Sentences after a first word, wrapped.
void writeParagraph(std::string_view first, const std::vector<std::string>& all, std::string& out) {
    constexpr std::size_t line_width = 96;
    std::string row(first);
    out += '\n';
    for (const std::string& sentence : all)
        for (std::string_view rest = sentence; !rest.empty();) {
            const std::string_view word = rest.substr(0, rest.find(' '));
            rest.remove_prefix(std::min(rest.size(), word.size() + 1));
            if (text::width(row) + 1 + text::width(word) > line_width) {
                out += std::exchange(row, std::string(word)) + '\n';
                continue;
            }
            row += ' ';
            row += word;
        }
    out += row + '\n';
}

} // namespace

std::string writeText(const Inquiry& inquiry) {
    const Examination& examination = inquiry.examination;
    std::string out;
    writeHead(inquiry, out);
    writeFacts(inquiry, out);
    writeLedger(inquiry, out);
    writeRemedies(inquiry.remedies, out);
    writeMeters(examination.start, out);
    writeEvents(examination.start, out);
    out += "\n" + writeRules(inquiry.rules);
    writeParagraph(words("Assumed:"), assumptionWords(examination), out);
    writeParagraph(words("Care:"), cautionWords(), out);
    return out;
}

} // namespace ebbline::report
