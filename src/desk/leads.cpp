// SPDX-License-Identifier: MIT
// A meter's two leads on two terminals of a start that was simulated.
#include "ebbline/leads.h"

#include "ebbline/telling.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::desk {

Leads leadsAtFridge(const Installation& installation) {
    return {.plus = {installation.subject, "plus"}, .minus = {installation.subject, "minus"}};
}

std::optional<double> readingOf(const Network& network, const Frame& frame, const Leads& leads) {
    const auto plus = network.findNode(leads.plus);
    const auto minus = network.findNode(leads.minus);
    if (!plus || !minus)
        return std::nullopt;
    const auto at = [](const auto& all, int node) { return all[static_cast<std::size_t>(node)]; };
    if (at(network.islands, *plus) != at(network.islands, *minus))
        return std::nullopt;
    return at(frame.potentials, *plus) - at(frame.potentials, *minus);
}

std::optional<MeterTrace> traceOf(const Examination& examination, const Leads& leads) {
    const Installation& installation = examination.network.installation;
    MeterTrace trace{.name = words("meter: {} against {}",
                                   drawing::nameOfTerminal(installation, leads.plus),
                                   drawing::nameOfTerminal(installation, leads.minus)),
                     .at_s = {},
                     .volts = {}};
    for (const Frame& frame : examination.start.frames) {
        const auto reading = readingOf(examination.network, frame, leads);
        if (!reading)
            return std::nullopt;
        trace.at_s.push_back(frame.at_s);
        trace.volts.push_back(*reading);
    }
    return trace;
}

LeadExtremes extremesOf(const Start& start, const MeterTrace& trace) {
    const double from_s =
        start.attempts.empty() ? trace.at_s.front() : start.attempts.front().begin_s;
    LeadExtremes extremes{trace.volts.back(), trace.volts.back()};
    for (std::size_t i = 0; i < trace.volts.size(); ++i)
        if (trace.at_s[i] >= from_s) {
            extremes.lowest_v = std::min(extremes.lowest_v, trace.volts[i]);
            extremes.highest_v = std::max(extremes.highest_v, trace.volts[i]);
        }
    return extremes;
}

} // namespace ebbline::desk
