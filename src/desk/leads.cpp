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

std::string nameOf(const Installation& installation, const Leads& leads) {
    return words("meter: {} against {}",
                 drawing::nameOfTerminal(installation, leads.plus),
                 drawing::nameOfTerminal(installation, leads.minus));
}

std::optional<MeterTrace> traceOf(const Examination& examination, const Leads& leads) {
    MeterTrace trace{.name = nameOf(examination.network.installation, leads)};
    for (const Frame& frame : examination.start.frames) {
        const auto reading = readingOf(examination.network, frame, leads);
        if (!reading)
            return std::nullopt;
        trace.at_s.push_back(frame.at_s);
        trace.volts.push_back(*reading);
    }
    return trace;
}

LeadExtremes extremesOf(const Start& start, const MeterTrace& trace, double at_s) {
    double from_s = trace.at_s.front();
    double to_s = trace.at_s.back();
    for (const Attempt& attempt : start.attempts)
        if (&attempt == &start.attempts.front() || attempt.begin_s <= at_s) {
            from_s = attempt.begin_s;
            to_s = attempt.end_s;
        }
    std::optional<LeadExtremes> found;
    for (std::size_t i = 0; i < trace.volts.size(); ++i) {
        if (trace.at_s[i] < from_s || trace.at_s[i] > to_s)
            continue;
        const double volts = trace.volts[i];
        found = found ? LeadExtremes{std::min(found->lowest_v, volts),
                                     std::max(found->highest_v, volts)}
                      : LeadExtremes{volts, volts};
    }
    return found.value_or(LeadExtremes{trace.volts.back(), trace.volts.back()});
}

} // namespace ebbline::desk
