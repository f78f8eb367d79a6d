// SPDX-License-Identifier: MIT
// Volts lost in each element of the supply loop, each by its own law and its own current.
#include "ebbline/error.h"
#include "ebbline/start.h"

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

/// The vectors at one stored instant.
class Instant {
public:
    Instant(const Solved& solved, const Netlist& netlist, std::size_t index)
        : m_solved(solved), m_netlist(netlist), m_index(index) {}

    /// The reference node has no vector and is at 0.
    [[nodiscard]] double at(int vector) const {
        return vector < 0 ? 0 : m_solved.vectors[static_cast<std::size_t>(vector)][m_index];
    }
    [[nodiscard]] const Probe& probe(int element) const {
        return m_netlist.probes[static_cast<std::size_t>(element)];
    }
    [[nodiscard]] const Element& element(int index) const {
        return m_netlist.network.elements[static_cast<std::size_t>(index)];
    }
    [[nodiscard]] double voltage(int element) const {
        return at(probe(element).from) - at(probe(element).to);
    }

    /// Current in the element from -> to.
    [[nodiscard]] double current(int element) const {
        return probe(element).sign * at(probe(element).current);
    }

    /// Share of the branch's inductive voltage, from -> to. It comes from the node between the
    /// branch's R and L, never from outer nodes.
    [[nodiscard]] double inductive(int element) const {
        const Probe& place = probe(element);
        if (place.inner < 0)
            return 0;
        const Branch& branch = m_netlist.network.branches[static_cast<std::size_t>(place.branch)];
        return place.sign * (at(place.inner) - at(place.to)) * this->element(element).henry /
               branch.henry;
    }

    /// Loss of a passive element from -> to by its own law.
    [[nodiscard]] double loss(int element) const {
        const Probe& place = probe(element);
        const double ohm = place.ohms >= 0 ? at(place.ohms) : this->element(element).ohm;
        return ohm * current(element) + inductive(element);
    }

private:
    const Solved& m_solved;
    const Netlist& m_netlist;
    std::size_t m_index;
};

std::optional<double> ratio(double volts, double amps) {
    return std::abs(amps) > 1e-9 ? std::optional(volts / amps) : std::nullopt;
}

LedgerRow batteryRow(const Instant& now, int battery) {
    const double amps = now.current(battery);
    double volts = now.at(now.probe(battery).ohms) * amps;
    for (const int pair : now.probe(battery).inside_v)
        volts += now.at(pair);
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
