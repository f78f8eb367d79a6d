// SPDX-License-Identifier: MIT
// What the numbers rest on: the scene, published tables, what is typical, what is estimated.
#include "sections.h"
#include "sheet.h"
#include "words.h"

#include "ebbline/text.h"

#include <fmt/core.h>

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

void add(Fields& rows, const std::string& label, const std::string& words) {
    if (words.empty())
        return;
    Fields row;
    row.set("label", label);
    row.set("words", plain(words));
    rows.push_back(row);
}

std::string fromScene(const Installation& installation) {
    std::vector<std::string> items{
        fmt::format("{} V", text::number(installation.nominal_v)),
        fmt::format("{} °C", text::fixed(installation.surroundings.ambient_c, 0))};
    for (const Part& part : installation.parts)
        if (const auto* battery = std::get_if<Battery>(&part.body))
            items.push_back(fmt::format("{} of {} Ah, {} % charged",
                                        part.id,
                                        text::number(battery->capacity_ah),
                                        text::fixed(battery->charge_pct, 0)));
    return joined(items) + "; lengths (one way), sizes, kinds and conditions as in the parts list";
}

} // namespace

void addAssumptions(const Inquiry& inquiry, Fields& page) {
    const Examination& examination = inquiry.examination;
    Fields rows = Fields::type::list;
    add(rows, "Stated in the scene", fromScene(examination.network.installation));
    add(rows, "Resistance stated for this very thing", idsOn(inquiry, Basis::Measured));
    add(rows, "Resistance by a published table", idsOn(inquiry, Basis::Standard));
    add(rows, "Resistance typical of its kind, from memory", idsOn(inquiry, Basis::Typical));
    add(rows, "Resistance estimated", idsOn(inquiry, Basis::Estimate));
    add(rows,
        "Estimated",
        "motor, compressor and controller: engineering estimates, no unit one can buy, until "
        "somebody puts measured values in their place");
    add(rows,
        "Band",
        fmt::format("clear means at least {} V to spare; with less, or as much worse as an "
                    "estimate may be, it starts only just",
                    text::fixed(verdict::estimate_band_v, 2)));
    page.set("bases", rows);
    page.set("assumptions", listOf(assumptionWords(examination)));
}

} // namespace ebbline::report
