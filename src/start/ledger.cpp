// SPDX-License-Identifier: MIT
// Volts lost in each element of the supply loop, each by its own law and its own current.
#include "instant.h"

#include "ebbline/error.h"

#include <cmath>
#include <numeric>

namespace ebbline {

double Ledger::error() const {
    return std::accumulate(rows.begin(),
                           rows.end(),
                           source_v - controller_v,
                           [](double rest, const LedgerRow& row) { return rest - row.volts; });
}

namespace start {
namespace {

std::optional<double> ratio(double volts, double amps) {
    return std::abs(amps) > 1e-9 ? std::optional(volts / amps) : std::nullopt;
}

LedgerRow batteryRow(const Instant& now, int battery) {
    const double amps = now.current(battery);
    const double volts = now.inside(battery);
    return {now.element(battery).name, Side::Source, volts, amps, ratio(volts, amps)};
}

LedgerRow row(const Instant& now, const Step& step, Side side) {
    const double volts = step.sign * now.loss(step.element);
    const double amps = step.sign * now.current(step.element);
    return {now.element(step.element).name, side, volts, amps, ratio(volts, amps)};
}

} // namespace

Ledger readLedger(const Solved& solved, const Netlist& netlist, std::size_t index) {
    EBBLINE_ASSERT(netlist.network.loop.has_value(), "a ledger needs a supply loop");
    const SupplyLoop& loop = *netlist.network.loop;
    const Instant now(solved, netlist, index);
    Ledger ledger{.at_s = solved.time_s[index] - netlist.lead_s,
                  .source_v = now.at(now.probe(loop.battery).source_v),
                  .controller_v = now.voltage(loop.controller) * (loop.reversed ? -1 : 1),
                  .rows = {}};
    ledger.rows.push_back(batteryRow(now, loop.battery));
    for (const Step& step : loop.out)
        ledger.rows.push_back(row(now, step, Side::Out));
    for (const Step& step : loop.back)
        ledger.rows.push_back(row(now, step, Side::Back));
    return ledger;
}

} // namespace start
} // namespace ebbline
