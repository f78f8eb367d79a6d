// SPDX-License-Identifier: MIT
// What the numbers rest on: the scene, published tables, what is typical, what is estimated.
#include "sections.h"
#include "sheet.h"
#include "words.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::report {
namespace {

std::string idsOn(const Inquiry& inquiry, Basis basis) {
    std::vector<std::string> ids;
    for (const Loss& loss : inquiry.losses)
        if (loss.basis == basis)
            ids.push_back(loss.element);
    return joined(ids);
}

void add(Fields& rows, const std::string& label, const std::string& said) {
    if (said.empty())
        return;
    Fields row;
    row.set("label", label);
    row.set("words", plain(said));
    rows.push_back(row);
}

std::string fromScene(const Installation& installation) {
    std::vector<std::string> items{text::figure(installation.nominal_v) + " V",
                                   text::fixed(installation.surroundings.ambient_c, 0) + " °C"};
    for (const Part& part : installation.parts)
        if (const auto* battery = std::get_if<Battery>(&part.body))
            items.push_back(words("{} of {} Ah, {} % charged",
                                  part.id,
                                  text::figure(battery->capacity_ah),
                                  text::fixed(battery->charge_pct, 0)));
    return words("{}; lengths (one way), sizes, kinds and conditions as in the parts list",
                 joined(items));
}

} // namespace

void addAssumptions(const Inquiry& inquiry, Fields& page) {
    const Examination& examination = inquiry.examination;
    Fields rows = Fields::type::list;
    add(rows, words("Stated in the scene"), fromScene(examination.network.installation));
    add(rows, words("Resistance stated for this very thing"), idsOn(inquiry, Basis::Measured));
    add(rows, words("Resistance by a published table"), idsOn(inquiry, Basis::Standard));
    add(rows, words("Resistance typical of its kind, from memory"), idsOn(inquiry, Basis::Typical));
    add(rows, words("Resistance estimated"), idsOn(inquiry, Basis::Estimate));
    add(rows,
        words("Estimated"),
        words("motor, compressor and controller: engineering estimates, no unit one can buy, "
              "until somebody puts measured values in their place"));
    add(rows,
        words("Band"),
        words("clear means at least {} V to spare; with less, or as much worse as an "
              "estimate may be, it starts only just",
              text::fixed(verdict::estimate_band_v, 2)));
    page.set("bases", rows);
    page.set("assumptions", listOf(assumptionWords(examination)));
}

} // namespace ebbline::report
