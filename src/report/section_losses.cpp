// SPDX-License-Identifier: MIT
// Where it is lost: every row of the ledger, with the sum on paper.
#include "sections.h"
#include "words.h"

#include "ebbline/telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>

namespace ebbline::report {
namespace {

using text::fixed;

/// Widths of a bar: what had to be lost, and what need not have been.
void addBar(const Loss& loss, double most_v, Fields& row) {
    constexpr double whole = 100; // units of the bar's own picture
    const double volts = std::clamp(loss.volts, 0.0, most_v);
    const double needless = std::clamp(loss.avoidable_v, 0.0, volts);
    if (volts / most_v * whole < 1)
        return; // nothing to be seen
    Fields bar;
    bar.set("had", fmt::format("{:.2f}", (volts - needless) / most_v * whole));
    bar.set("needless", fmt::format("{:.2f}", needless / most_v * whole));
    row.set("bar", bar);
}

Fields rowOf(const Inquiry& inquiry, const Ledger& ledger, std::size_t i) {
    const LedgerRow& ledger_row = ledger.rows[i];
    const Installation& installation = inquiry.examination.network.installation;
    Fields row;
    row.set("name", plain(drawing::nameOfThing(installation, ledger_row.element)));
    row.set("id", plain(ledger_row.element));
    row.set("side", sideWords(ledger_row.side));
    row.set("volts", fixed(ledger_row.volts, 3));
    const std::string needless = needlessWords(inquiry.losses, i);
    row.set("needless", needless);
    row.set("is_needless", Fields(needless != "-"));
    if (needless != "-")
        setText(row, "remedy", text::tidyUnits(inquiry.losses[i].remedy));
    row.set("ohms", ohmsWords(ledger_row));
    row.set("watts", fixed(ledger_row.watts(), 1));
    return row;
}

} // namespace

void addLosses(const Inquiry& inquiry, Fields& page) {
    const auto& ledger = inquiry.examination.start.ledger;
    if (!ledger)
        return;
    double most_v = 1e-9;
    for (const Loss& loss : inquiry.losses)
        most_v = std::max(most_v, loss.volts);
    Fields rows = Fields::type::list;
    double needless_v = 0;
    for (std::size_t i = 0; i < ledger->rows.size(); ++i) {
        Fields row = rowOf(inquiry, *ledger, i);
        if (i < inquiry.losses.size()) {
            const Loss& loss = inquiry.losses[i];
            row.set("sum", plain(text::tidyUnits(loss.sum)));
            row.set("basis", basisWords(loss.basis));
            addBar(loss, most_v, row);
            needless_v += loss.avoidable_v;
        }
        rows.push_back(row);
    }
    Fields section;
    section.set("words", ledgerWords(*ledger));
    section.set("at", fixed(ledger->at_s, 2));
    section.set("rows", rows);
    section.set("lost", fixed(ledger->source_v - ledger->controller_v, 3));
    section.set("needless", fixed(needless_v, 3));
    section.set("closes", closingWords(inquiry.examination.start));
    page.set("ledger", section);
}

} // namespace ebbline::report
