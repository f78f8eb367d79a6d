// SPDX-License-Identifier: MIT
// What happened when: the instants of a solved run, and its attempts.
#pragma once

#include "ebbline/start.h"

#include <span>
#include <vector>

namespace ebbline::start {

/// A solved run with its vectors by name and the scene's time scale.
class Record {
public:
    Record(const Solved& solved, const Netlist& netlist);

    [[nodiscard]] std::span<const double> time() const { return m_time_s; }
    /// Scene time of the last sample.
    [[nodiscard]] double end() const { return m_time_s.back(); }
    [[nodiscard]] std::span<const double> vector(int index) const;
    /// Between the ends of an element, from -> to.
    [[nodiscard]] std::vector<double> between(const Probe& probe) const;
    /// Between the unit's supply terminals, plus minus minus.
    [[nodiscard]] std::span<const double> volts() const { return m_volts; }
    [[nodiscard]] std::span<const double> amps() const;
    [[nodiscard]] const UnitProbe& unit() const { return m_netlist.unit; }
    [[nodiscard]] const Controller& controller() const;
    [[nodiscard]] const Netlist& netlist() const { return m_netlist; }
    [[nodiscard]] const Solved& solved() const { return m_solved; }

    /// First crossing of `level` by a vector at or after `from_s`.
    [[nodiscard]] std::optional<double>
    find(int vector, double level, bool rising, double from_s) const;

private:
    const Solved& m_solved;
    const Netlist& m_netlist;
    std::vector<double> m_time_s;
    std::vector<double> m_volts;
};

/// Attempts in order; the last may be cut by the end of the run.
[[nodiscard]] std::vector<Attempt> findAttempts(const Record& record);

/// Everything that happened, in order of time.
[[nodiscard]] std::vector<StartEvent> findEvents(const Record& record);

/// Speed that counts as running, rad/s.
[[nodiscard]] double runningSpeed(const Controller& controller);

} // namespace ebbline::start
