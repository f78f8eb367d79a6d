// SPDX-License-Identifier: MIT
// How long a run must be, and other facts a circuit needs of the whole installation.
#include "horizon.h"

#include <algorithm>

namespace ebbline::netlist {
namespace {

// A fully charged flooded block rests at 12.65 V.
constexpr double block_v = 12.65;

// Later events belong to a day of cycling; no start is followed so long.
constexpr double latest_event_s = 3600;

// From the call to full speed and a little more, beyond the unit's own times.
constexpr double spare_s = 1;

} // namespace

double stopTime(const Netlist& netlist) {
    const Network& network = netlist.network;
    const Part* subject = network.installation.findPart(network.installation.subject);
    const auto& unit = std::get<Controller>(subject->body);
    double last_event_s = 0;
    for (const Event& event : network.installation.events)
        if (event.at_s <= latest_event_s)
            last_event_s = std::max(last_event_s, event.at_s);
    const double start_s = unit.delay_s + unit.position_s + unit.spin_up_s + spare_s;
    const double first_s = start_s + 3 * unit.build_s;
    const double more_s = (netlist.settings.attempts - 1) * (unit.retry_s + start_s) + start_s;
    return netlist.lead_s + last_event_s + std::max(first_s, more_s);
}

double highestSource(const Installation& installation) {
    double highest_v = 0;
    for (const Part& part : installation.parts)
        if (const auto* battery = std::get_if<Battery>(&part.body))
            highest_v = std::max(highest_v, battery->nominal_v / 12 * block_v);
        else if (const auto* charger = std::get_if<Charger>(&part.body))
            highest_v = std::max(highest_v, charger->voltage_v);
    return highest_v;
}

} // namespace ebbline::netlist
