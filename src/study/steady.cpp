// SPDX-License-Identifier: MIT
// Steady voltages and currents of a whole network.
#include "steady.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace ebbline::study {
namespace {

constexpr double open_ohm = 1e8;
constexpr double leak_siemens = 1e-12; // an island without a source has a potential too
constexpr double least_ohm = 1e-7;
constexpr double same_v = 1e-9;
constexpr int most_steps = 200;
constexpr int quick_steps = 25; // beyond them the kinks of a charger may be stepped over for ever

double loadAmps(const Load& load, double volts) {
    if (load.law == "resistance")
        return volts / load.resistance_ohm;
    if (load.law == "current")
        return load.current_a * std::tanh(volts);
    return load.power_w * std::abs(volts) / std::max(volts * volts, 36.0) * std::tanh(volts);
}

double idleAmps(double watts, double volts) {
    return watts / std::max(volts, 2.0) * std::clamp(volts / 2, 0.0, 1.0);
}

} // namespace

Steady::Steady(const Network& network, const Characteristics& characteristics)
    : m_network(network), m_characteristics(characteristics), m_batteries(batteriesOf(network)),
      m_rows(network.nodes.size(), -1), m_volts(network.nodes.size()),
      m_currents(network.elements.size()) {
    const auto use = [&](int node) {
        if (int& row = m_rows[static_cast<std::size_t>(node)]; node != 0 && row < 0)
            row = static_cast<int>(m_size++);
    };
    for (const auto& branch : network.branches) {
        use(branch.from);
        use(branch.to);
    }
    for (const Element& element : network.elements)
        if (!element.linear) {
            use(element.from);
            use(element.to);
        }
    m_matrix.resize(m_size * m_size);
    m_right.resize(m_size);
}

int Steady::rowOf(int node) const {
    return m_rows[static_cast<std::size_t>(node)];
}

double Steady::between(std::size_t element) const {
    const Element& one = m_network.elements[element];
    return m_volts[static_cast<std::size_t>(one.from)] - m_volts[static_cast<std::size_t>(one.to)];
}

Flow Steady::solve(const Moment& moment) {
    // From above: a consumer of constant power has a second solution near no voltage at all.
    std::ranges::fill(m_volts, 0.0);
    std::ranges::fill(m_currents, 0.0);
    settle(moment, false);
    settle(moment, true);
    return read(moment);
}

void Steady::settle(const Moment& moment, bool consumers) {
    for (int i = 0; i < most_steps; ++i) {
        const double share = i < quick_steps ? 1 : 0.3;
        if (step(moment, consumers, share) < same_v)
            return;
    }
}

void Steady::addBranch(const Branch& branch) {
    const int from = rowOf(branch.from);
    const int to = rowOf(branch.to);
    const double volts = m_volts[static_cast<std::size_t>(branch.from)] -
                         m_volts[static_cast<std::size_t>(branch.to)];
    const double constant_a = branch.amps - branch.siemens * volts;
    for (const auto& [row, other, sign] : {std::tuple(from, to, 1.0), std::tuple(to, from, -1.0)}) {
        if (row < 0)
            continue;
        const auto r = static_cast<std::size_t>(row);
        m_matrix[r * m_size + r] += branch.siemens;
        if (other >= 0)
            m_matrix[r * m_size + static_cast<std::size_t>(other)] -= branch.siemens;
        m_right[r] -= sign * constant_a;
    }
}

double Steady::step(const Moment& moment, bool consumers, double share) {
    std::ranges::fill(m_matrix, 0.0);
    std::ranges::fill(m_right, 0.0);
    for (std::size_t i = 0; i < m_size; ++i)
        m_matrix[i * m_size + i] = leak_siemens;
    for (const auto& branch : m_network.branches) {
        const double siemens = 1 / std::max(branch.ohm, least_ohm);
        const double volts = m_volts[static_cast<std::size_t>(branch.from)] -
                             m_volts[static_cast<std::size_t>(branch.to)];
        addBranch({branch.from, branch.to, siemens * volts, siemens});
    }
    for (std::size_t i = 0; i < m_network.elements.size(); ++i)
        if (!m_network.elements[i].linear)
            addBranch(deviceAt(i, moment, consumers));
    if (!solveLinear())
        return 0;
    double largest_v = 0;
    for (std::size_t node = 0; node < m_volts.size(); ++node) {
        if (m_rows[node] < 0)
            continue;
        const double change_v = m_right[static_cast<std::size_t>(m_rows[node])] - m_volts[node];
        m_volts[node] += share * change_v;
        largest_v = std::max(largest_v, std::abs(change_v));
    }
    for (std::size_t i = 0; i < m_network.elements.size(); ++i)
        if (const ElementKind kind = m_network.elements[i].kind; kind == ElementKind::Fuse ||
                                                                 kind == ElementKind::Breaker ||
                                                                 m_network.elements[i].film_ohm > 0)
            m_currents[i] = moment.switches[i] ? between(i) / ohmOf(i) : 0;
    return largest_v;
}

/// Elimination with the largest pivot of each column; the solution takes the right side's place.
bool Steady::solveLinear() {
    const auto at = [&](std::size_t row, std::size_t column) -> double& {
        return m_matrix[row * m_size + column];
    };
    for (std::size_t k = 0; k < m_size; ++k) {
        std::size_t pivot = k;
        for (std::size_t row = k + 1; row < m_size; ++row)
            if (std::abs(at(row, k)) > std::abs(at(pivot, k)))
                pivot = row;
        if (at(pivot, k) == 0)
            return false;
        if (pivot != k) {
            for (std::size_t column = k; column < m_size; ++column)
                std::swap(at(pivot, column), at(k, column));
            std::swap(m_right[pivot], m_right[k]);
        }
        for (std::size_t row = k + 1; row < m_size; ++row) {
            const double factor = at(row, k) / at(k, k);
            if (factor == 0)
                continue;
            for (std::size_t column = k; column < m_size; ++column)
                at(row, column) -= factor * at(k, column);
            m_right[row] -= factor * m_right[k];
        }
    }
    for (std::size_t k = m_size; k-- > 0;) {
        for (std::size_t column = k + 1; column < m_size; ++column)
            m_right[k] -= at(k, column) * m_right[column];
        m_right[k] /= at(k, k);
    }
    return true;
}

double Steady::ohmOf(std::size_t element) const {
    const Element& one = m_network.elements[element];
    const Part* part = m_network.installation.findPart(one.part);
    if (one.film_ohm > 0)
        return std::max(network::jointOhm(one, m_currents[element]), least_ohm);
    if (one.kind != ElementKind::Fuse)
        return std::max(one.ohm, least_ohm);
    const auto* fuse = std::get_if<Fuse>(&part->body);
    const double rating_a =
        fuse != nullptr ? fuse->rating_a : std::get<BenchLeads>(part->body).rating_a;
    const double over = m_currents[element] / rating_a;
    return std::max(one.ohm + one.warm_ohm * std::min(over * over, 2.0), least_ohm);
}

Steady::Branch Steady::deviceAt(std::size_t element, const Moment& moment, bool consumers) const {
    const Element& one = m_network.elements[element];
    const bool on = moment.switches[element];
    const auto resistance = [&](double ohm) {
        return Branch{one.from, one.to, between(element) / ohm, 1 / ohm};
    };
    switch (one.kind) {
    case ElementKind::Battery:
        return batteryAt(element, moment);
    case ElementKind::Charger:
        return on ? chargerAt(element) : resistance(open_ohm);
    case ElementKind::Load:
    case ElementKind::Controller:
        return on && consumers && !moment.flat ? consumerAt(element, moment.running)
                                               : resistance(open_ohm);
    case ElementKind::Meter:
        return resistance(one.ohm);
    case ElementKind::Conductor:
    case ElementKind::Joint:
    case ElementKind::Contact:
    case ElementKind::Thermostat:
    case ElementKind::Fuse:
    case ElementKind::Breaker:
        break;
    }
    return resistance(on ? ohmOf(element) : open_ohm);
}

/// A battery lies from its minus to its plus.
Steady::Branch Steady::batteryAt(std::size_t element, const Moment& moment) const {
    const Element& one = m_network.elements[element];
    const auto index =
        static_cast<std::size_t>(std::ranges::find(m_batteries, element) - m_batteries.begin());
    const BatteryPoint point =
        study::batteryAt(m_characteristics.batteries[index], moment.charges[index]);
    return {one.from, one.to, (point.open_v + between(element)) / point.ohm, 1 / point.ohm};
}

/// So does a charger; it only delivers.
Steady::Branch Steady::chargerAt(std::size_t element) const {
    const Element& one = m_network.elements[element];
    const auto& charger = std::get<Charger>(m_network.installation.findPart(one.part)->body);
    const double ohm = charger.resistance_mohm * 1e-3;
    const double wanted_a = (charger.voltage_v + between(element)) / ohm;
    if (wanted_a > charger.current_a)
        return {one.from, one.to, charger.current_a, 0};
    if (wanted_a < 0)
        return {one.from, one.to, 0, 0};
    return {one.from, one.to, wanted_a, 1 / ohm};
}

double Steady::drawn(std::size_t element, double volts, bool running) const {
    const Element& one = m_network.elements[element];
    const Part& part = *m_network.installation.findPart(one.part);
    if (const auto* load = std::get_if<Load>(&part.body))
        return loadAmps(*load, volts);
    const auto& points = m_characteristics.unit;
    if (volts <= 0 || points.empty())
        return 0;
    const UnitPoint point = unitAt(points, volts);
    if (!running || part.id != m_network.installation.subject)
        return idleAmps(point.idle_w, volts);
    // Below what was simulated it is a resistance: there is always a solution.
    return point.running_w * volts /
           std::max(volts * volts, points.front().volts * points.front().volts);
}

Steady::Branch Steady::consumerAt(std::size_t element, bool running) const {
    constexpr double by_v = 1e-4;
    const Element& one = m_network.elements[element];
    const double volts = between(element);
    const double slope =
        (drawn(element, volts + by_v, running) - drawn(element, volts - by_v, running)) /
        (2 * by_v);
    return {one.from, one.to, drawn(element, volts, running), slope};
}

bool Steady::holds(std::size_t element, double amps) const {
    const double parts_a = m_network.elements[element].parts_a;
    return parts_a == 0 || std::abs(amps) < parts_a;
}

Flow Steady::read(const Moment& moment) const {
    Flow flow;
    const auto subject = static_cast<std::size_t>(m_network.subject());
    flow.fridge_v = between(subject);
    for (std::size_t i = 0; i < m_network.elements.size(); ++i) {
        const ElementKind kind = m_network.elements[i].kind;
        if (m_network.elements[i].linear)
            continue;
        const double amps = deviceAt(i, moment, true).amps;
        if (kind == ElementKind::Battery)
            flow.battery_a.push_back(amps);
        else if (kind == ElementKind::Charger)
            flow.charger_a += amps;
        else if (i == subject)
            flow.fridge_a = amps;
        else if (kind == ElementKind::Load || kind == ElementKind::Controller)
            flow.loads_a += amps;
        else if (moment.switches[i] && !holds(i, amps))
            flow.opens = static_cast<int>(i);
    }
    return flow;
}

} // namespace ebbline::study
