// SPDX-License-Identifier: MIT
// The vectors of a solved run at one stored instant, asked by element.
#pragma once

#include "ebbline/start.h"

#include <cstddef>

namespace ebbline::start {

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
        return probe(element).share * at(probe(element).current);
    }

    /// Share of the branch's inductive voltage, from -> to. It comes from the node between the
    /// branch's R and L, never from outer nodes.
    [[nodiscard]] double inductive(int element) const {
        const Probe& place = probe(element);
        if (place.inner < 0)
            return 0;
        const Branch& branch = m_netlist.network.branches[static_cast<std::size_t>(place.branch)];
        return place.share * (at(place.inner) - at(place.to)) * this->element(element).henry /
               branch.henry;
    }

    /// Lost inside a battery by a current out of its plus post.
    [[nodiscard]] double inside(int battery) const {
        double volts = at(probe(battery).ohms) * current(battery);
        for (const int pair : probe(battery).inside_v)
            volts += at(pair);
        return volts;
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

} // namespace ebbline::start
