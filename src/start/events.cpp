// SPDX-License-Identifier: MIT
// What happened when.
#include "events.h"

#include "trace.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace ebbline::start {
namespace {

constexpr double half = 0.5;            // of a signal that is 0 or 1
constexpr double called_v = 2;          // across the call terminals, as in the controller's model
constexpr double powered_v = 5;         // half way to the lowest nominal voltage, roughly
constexpr double before_scene_s = -0.5; // well after the settling, before the scene begins

/// Every crossing of `level` by a vector.
std::vector<double>
findAll(const Record& record, int vector, double level, bool rising, double from_s) {
    std::vector<double> times;
    double after_s = from_s;
    while (const auto at_s = record.find(vector, level, rising, after_s)) {
        times.push_back(*at_s);
        after_s = std::nextafter(*at_s, record.end() + 1);
    }
    return times;
}

void addAttemptEvents(const Record& record,
                      const Attempt& attempt,
                      std::vector<StartEvent>& events) {
    const Controller& controller = record.controller();
    const UnitProbe& unit = record.unit();
    events.push_back({attempt.begin_s, Happening::Positions});
    const auto add = [&](int vector, double level, Happening what) {
        const auto at_s = findCrossing(
            record.time(), record.vector(vector), level, true, attempt.begin_s, attempt.end_s);
        if (at_s)
            events.push_back({*at_s, what});
    };
    add(unit.timer_s, controller.delay_s + controller.position_s, Happening::SpinsUp);
    add(unit.speed, runningSpeed(controller), Happening::FullSpeed);
    if (attempt.gave_up)
        events.push_back({attempt.end_s, Happening::GaveUp});
}

void addPowerEvents(const Record& record, std::vector<StartEvent>& events) {
    const auto on_s =
        findCrossing(record.time(), record.volts(), powered_v, true, before_scene_s, record.end());
    if (on_s)
        events.push_back({*on_s, Happening::SupplyOn});
    for (const double at_s :
         findAll(record, record.unit().calling_v, called_v, false, before_scene_s))
        events.push_back({at_s, Happening::Calls});
    for (const Probe& probe : record.netlist().probes)
        if (probe.open >= 0)
            for (const double at_s : findAll(record, probe.open, half, true, record.time().front()))
                events.push_back({at_s, Happening::FuseOpens});
}

} // namespace

Record::Record(const Solved& solved, const Netlist& netlist)
    : m_solved(solved), m_netlist(netlist) {
    for (const double time_s : solved.time_s)
        m_time_s.push_back(time_s - netlist.lead_s);
    m_volts = between(netlist.probes[static_cast<std::size_t>(netlist.network.subject())]);
}

std::vector<double> Record::between(const Probe& probe) const {
    // The reference node has no vector and is at 0.
    const auto at = [&](int index, std::size_t i) { return index < 0 ? 0 : vector(index)[i]; };
    std::vector<double> volts(m_time_s.size());
    for (std::size_t i = 0; i < volts.size(); ++i)
        volts[i] = at(probe.from, i) - at(probe.to, i);
    return volts;
}

std::span<const double> Record::vector(int index) const {
    return m_solved.vectors[static_cast<std::size_t>(index)];
}

std::span<const double> Record::amps() const {
    return vector(m_netlist.probes[static_cast<std::size_t>(m_netlist.network.subject())].current);
}

const Controller& Record::controller() const {
    const Installation& installation = m_netlist.network.installation;
    return std::get<Controller>(installation.findPart(installation.subject)->body);
}

std::optional<double>
Record::find(int vector_index, double level, bool rising, double from_s) const {
    return findCrossing(m_time_s, vector(vector_index), level, rising, from_s, end());
}

double runningSpeed(const Controller& controller) {
    return 0.9 * controller.speed_rpm * std::numbers::pi / 30;
}

std::vector<Attempt> findAttempts(const Record& record) {
    const UnitProbe& unit = record.unit();
    std::vector<Attempt> attempts;
    double from_s = record.time().front();
    while (const auto active_s = record.find(unit.active, half, true, from_s)) {
        const auto idle_s = record.find(unit.active, half, false, *active_s);
        Attempt attempt{.end_s = idle_s.value_or(record.end())};
        const auto begin_s = findCrossing(record.time(),
                                          record.vector(unit.timer_s),
                                          record.controller().delay_s,
                                          true,
                                          *active_s,
                                          attempt.end_s);
        if (idle_s) {
            // The wait begins in the same instant as the attempt ends.
            const auto wait_s = record.find(unit.waiting, half, true, *active_s);
            attempt.gave_up = wait_s && *wait_s < *idle_s + 1e-3;
            const auto stall_s = record.find(unit.stall, half * 0.999, true, *active_s);
            attempt.stalled = attempt.gave_up && stall_s && *stall_s < *idle_s + 1e-3;
        }
        if (begin_s) {
            attempt.begin_s = *begin_s;
            attempts.push_back(attempt);
        }
        if (!idle_s)
            break;
        from_s = *idle_s;
    }
    return attempts;
}

std::vector<StartEvent> findEvents(const Record& record) {
    std::vector<StartEvent> events;
    addPowerEvents(record, events);
    for (const Attempt& attempt : findAttempts(record))
        addAttemptEvents(record, attempt, events);
    for (const double at_s :
         findAll(record, record.unit().waiting, half, false, record.time().front()))
        events.push_back({at_s, Happening::TriesAgain});
    std::ranges::sort(
        events, {}, [](const StartEvent& event) { return std::pair(event.at_s, event.what); });
    return events;
}

std::optional<RunningTry> findRunningTry(const Start& start) {
    const auto event = std::ranges::find(start.events, Happening::FullSpeed, &StartEvent::what);
    if (event == start.events.end())
        return std::nullopt;
    const auto before = std::ranges::count_if(
        start.attempts, [&](const Attempt& attempt) { return attempt.begin_s <= event->at_s; });
    return RunningTry{static_cast<int>(before), event->at_s};
}

} // namespace ebbline::start
