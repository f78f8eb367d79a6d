// SPDX-License-Identifier: MIT
// Follows box, switches and batteries from one event to the next.
#include "day.h"

#include "box.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace ebbline::study {
namespace {

constexpr double hour_s = 3600;
constexpr double day_s = 24 * hour_s;
constexpr double longest_step_s = 300; // charge and so the currents change little meanwhile
constexpr double shortest_step_s = 0.5;
constexpr double alive_again = 0.01; // charge at which what was flat is used again

struct Switching {
    double at_s = 0;
    std::size_t element = 0;
    bool closed = false;
};

std::vector<Switching> switchingsOf(const Network& network) {
    std::multimap<double, Switching> by_time;
    for (std::size_t i = 0; i < network.elements.size(); ++i)
        for (const auto& [at_s, closed] : network.elements[i].switchings)
            if (at_s <= day_s)
                by_time.emplace(at_s, Switching{at_s, i, closed});
    std::vector<Switching> all;
    all.reserve(by_time.size());
    for (const auto& [at_s, switching] : by_time)
        all.push_back(switching);
    return all;
}

Switches switchesAtFirst(const Network& network) {
    Switches switches;
    for (const Element& element : network.elements) {
        const Part* part = network.installation.findPart(element.part);
        bool closed = element.closed;
        if (part != nullptr && element.kind == ElementKind::Fuse) {
            const auto* fuse = std::get_if<Fuse>(&part->body);
            closed = fuse != nullptr ? !fuse->blown : !std::get<BenchLeads>(part->body).blown;
        } else if (part != nullptr && element.kind == ElementKind::Breaker)
            closed = !std::get<Breaker>(part->body).tripped;
        switches.push_back(closed);
    }
    return switches;
}

class Follower {
public:
    Follower(const Network& network, const Characteristics& characteristics, const DayPlan& plan)
        : m_network(network), m_plan(plan), m_steady(network, characteristics),
          m_batteries(batteriesOf(network)), m_feeding(feedingBattery(network)),
          m_thresholds(thresholdsOf(network)), m_switchings(switchingsOf(network)),
          m_box(plan.box, network.installation.surroundings.ambient_c),
          m_cop(copAt(plan.box, network.installation.surroundings.ambient_c)),
          m_opened(network.elements.size(), false) {
        m_now.switches = switchesAtFirst(network);
        for (std::size_t i = 0; i < m_batteries.size(); ++i)
            m_now.charges.push_back(batteryOf(i).charge_pct / 100);
        m_first_c = m_box.insideC();
        m_day.totals.first_charge = m_day.totals.last_charge = charge();
    }

    Day follow() {
        const double end_s = m_plan.until_h * hour_s;
        while (m_time_s < end_s && !m_ended) {
            switchWhatIsDue();
            decide();
            const Flow flow = m_steady.solve(m_now);
            if (isDisturbed(flow))
                continue;
            sample(flow);
            pass(flow, std::min(end_s, nextSwitching()) - m_time_s);
        }
        m_day.totals.warming_k = m_at_day_end_c.value_or(m_box.insideC()) - m_first_c;
        m_day.never_called = !m_was_called;
        m_day.overloaded = m_day.totals.starts > 0 && m_day.totals.running_s > 0.999 * day_s;
        return std::move(m_day);
    }

private:
    [[nodiscard]] const Battery& batteryOf(std::size_t index) const {
        const Element& element = m_network.elements[m_batteries[index]];
        return std::get<Battery>(m_network.installation.findPart(element.part)->body);
    }
    [[nodiscard]] double charge() const { return m_now.charges[m_feeding]; }

    void switchWhatIsDue() {
        while (m_next < m_switchings.size() && dueAt() <= m_time_s) {
            const Switching& due = m_switchings[m_next];
            if (!m_opened[due.element])
                m_now.switches[due.element] = due.closed;
            if (++m_next == m_switchings.size()) {
                m_next = 0;
                ++m_days;
            }
        }
    }
    [[nodiscard]] double dueAt() const { return m_days * day_s + m_switchings[m_next].at_s; }
    [[nodiscard]] double nextSwitching() const {
        // The first day's totals end with it.
        const double day_end_s = m_time_s < day_s ? day_s : INFINITY;
        return m_switchings.empty() ? day_end_s : std::min(day_end_s, dueAt());
    }

    /// Whether the call terminals are joined by what is closed, or nothing is wired to them.
    [[nodiscard]] bool callIsClosed() const {
        const std::string& subject = m_network.installation.subject;
        const auto call = m_network.findNode({subject, "call"});
        const auto call_return = m_network.findNode({subject, "call-return"});
        if (!call && !call_return)
            return true;
        if (!call || !call_return)
            return false;
        std::vector<int> groups(m_network.nodes.size());
        std::iota(groups.begin(), groups.end(), 0);
        for (std::size_t i = 0; i < m_network.elements.size(); ++i)
            if (const Element& element = m_network.elements[i]; joins(element, i)) {
                const int from = groups[static_cast<std::size_t>(element.from)];
                std::ranges::replace(groups, from, groups[static_cast<std::size_t>(element.to)]);
            }
        return groups[static_cast<std::size_t>(*call)] ==
               groups[static_cast<std::size_t>(*call_return)];
    }
    [[nodiscard]] bool joins(const Element& element, std::size_t index) const {
        const bool is_contact =
            element.kind == ElementKind::Contact || element.kind == ElementKind::Joint ||
            element.kind == ElementKind::Thermostat || element.kind == ElementKind::Fuse;
        return element.linear || (is_contact && m_now.switches[index]);
    }

    /// Whether the compressor runs from now on.
    void decide() {
        if (m_now.flat && charge() >= alive_again)
            m_now.flat = false;
        const bool called = m_box.wantsCooling() && callIsClosed();
        m_was_called |= called;
        if (!called) {
            m_now.running = false;
            m_call_failed = false;
        } else if (!m_now.running && !m_now.flat)
            tryToStart();
    }

    void tryToStart() {
        const double idle_v = m_steady.solve(m_now).fridge_v;
        if (idle_v < m_thresholds.cut_out_v || idle_v > m_thresholds.highest_v)
            m_good = false;
        else if (idle_v > m_thresholds.cut_in_v)
            m_good = true;
        if (!m_good)
            return;
        if (const auto* limit = limitNow(); limit != nullptr && charge() < limit->charge) {
            m_day.totals.failed_starts += !m_call_failed && m_time_s < day_s ? 1 : 0;
            m_call_failed = true;
            note(DayHappening::StartFails);
            return;
        }
        Moment tried = m_now;
        tried.running = true;
        if (m_steady.solve(tried).fridge_v < m_thresholds.cut_out_v) {
            note(DayHappening::CutOut);
            return;
        }
        m_now.running = true;
        m_day.starts.push_back({m_time_s / hour_s, m_now.charges, m_now.switches});
        m_day.totals.starts += m_time_s < day_s ? 1 : 0;
        if (m_trouble)
            addEvent(DayHappening::RunsAgain);
        m_trouble.reset();
    }

    [[nodiscard]] const StartLimit* limitNow() const {
        const auto place = std::ranges::find(m_plan.limits, m_now.switches, &StartLimit::switches);
        return place == m_plan.limits.end() ? nullptr : &*place;
    }

    /// What ends the running: told once until it runs again.
    void note(DayHappening what) {
        if (m_trouble == what)
            return;
        m_trouble = what;
        addEvent(what);
        m_ended = m_plan.to_the_end;
    }
    void addEvent(DayHappening what, const std::string& element = "") {
        m_day.events.push_back({m_time_s / hour_s, what, charge(), element});
    }

    /// Something acts that changes the flow: it is to be worked out anew.
    bool isDisturbed(const Flow& flow) {
        if (flow.opens >= 0) {
            const auto element = static_cast<std::size_t>(flow.opens);
            m_now.switches[element] = false;
            m_opened[element] = true;
            addEvent(DayHappening::FuseOpens, m_network.elements[element].name);
            return true;
        }
        if (!m_now.flat && charge() <= 0 && flow.battery_a[m_feeding] > 0) {
            m_now.flat = true;
            m_now.running = m_good = false;
            note(DayHappening::BatteryFlat);
            return true;
        }
        if (m_now.running && flow.fridge_v < m_thresholds.cut_out_v) {
            m_now.running = m_good = false;
            note(DayHappening::CutOut);
            return true;
        }
        return false;
    }

    [[nodiscard]] double coolingOf(const Flow& flow) const {
        return m_now.running ? m_cop * flow.fridge_v * flow.fridge_a : 0;
    }

    /// Charges after so long at these currents; a full battery takes no more.
    [[nodiscard]] Moment after(double seconds, const Flow& flow) const {
        Moment moment = m_now;
        for (std::size_t i = 0; i < m_batteries.size(); ++i)
            moment.charges[i] = std::clamp(
                moment.charges[i] - flow.battery_a[i] * seconds / hour_s / batteryOf(i).capacity_ah,
                0.0,
                1.0);
        return moment;
    }

    /// At most so long, and no further than to the next thing that happens by itself.
    void pass(const Flow& flow, double at_most_s) {
        double step_s = std::min({at_most_s, longest_step_s, m_box.switchesIn(coolingOf(flow))});
        if (const double amps = flow.battery_a[m_feeding]; amps > 0 && charge() > 0)
            step_s = std::min(step_s,
                              charge() * batteryOf(m_feeding).capacity_ah * hour_s / amps + 1e-3);
        Flow middle = m_steady.solve(after(step_s / 2, flow));
        while (m_now.running && step_s > shortest_step_s &&
               m_steady.solve(after(step_s, middle)).fridge_v < m_thresholds.cut_out_v) {
            step_s /= 2;
            middle = m_steady.solve(after(step_s / 2, flow));
        }
        if (m_time_s < day_s)
            add(step_s, middle);
        const double heat_in_j = m_box.pass(step_s, coolingOf(middle));
        m_now = after(step_s, middle);
        if (m_time_s < day_s) {
            m_day.totals.heat_in_kj += heat_in_j * 1e-3;
            m_day.totals.last_charge = charge();
        }
        m_time_s += step_s;
        if (m_time_s >= day_s && !m_at_day_end_c)
            m_at_day_end_c = m_box.insideC();
    }

    void add(double seconds, const Flow& flow) {
        DayTotals& totals = m_day.totals;
        totals.fridge_ah += flow.fridge_a * seconds / hour_s;
        totals.loads_ah += flow.loads_a * seconds / hour_s;
        totals.charged_ah += flow.charger_a * seconds / hour_s;
        totals.battery_ah +=
            std::accumulate(flow.battery_a.begin(), flow.battery_a.end(), 0.0) * seconds / hour_s;
        totals.fridge_wh += flow.fridge_v * flow.fridge_a * seconds / hour_s;
        totals.running_s += m_now.running ? seconds : 0;
        totals.heat_out_kj += coolingOf(flow) * seconds * 1e-3;
    }

    void sample(const Flow& flow) {
        if (m_time_s > day_s)
            return;
        m_day.samples.push_back(
            {.at_h = m_time_s / hour_s,
             .inside_c = m_box.insideC(),
             .running = m_now.running,
             .charge = charge(),
             .fridge_v = flow.fridge_v,
             .fridge_a = flow.fridge_a,
             .loads_a = flow.loads_a,
             .charger_a = flow.charger_a,
             .battery_a = std::accumulate(flow.battery_a.begin(), flow.battery_a.end(), 0.0)});
    }

    const Network& m_network;
    const DayPlan& m_plan;
    Steady m_steady;
    std::vector<std::size_t> m_batteries;
    std::size_t m_feeding;
    Thresholds m_thresholds;
    std::vector<Switching> m_switchings;
    Box m_box;
    double m_cop;
    std::vector<bool> m_opened; ///< fuses and breakers that no event closes again
    Moment m_now;
    Day m_day;
    double m_time_s = 0;
    std::size_t m_next = 0; ///< switching
    int m_days = 0;
    bool m_good = false; ///< the supply is accepted
    bool m_call_failed = false;
    bool m_was_called = false;
    bool m_ended = false;
    std::optional<DayHappening> m_trouble;
    double m_first_c = 0;
    std::optional<double> m_at_day_end_c;
};

} // namespace

std::size_t feedingBattery(const Network& network) {
    const auto batteries = batteriesOf(network);
    const auto place = std::ranges::find(
        batteries, network.loop ? static_cast<std::size_t>(network.loop->battery) : 0);
    return place == batteries.end() ? 0 : static_cast<std::size_t>(place - batteries.begin());
}

Day follow(const Network& network, const Characteristics& characteristics, const DayPlan& plan) {
    return Follower(network, characteristics, plan).follow();
}

} // namespace ebbline::study
