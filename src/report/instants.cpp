// SPDX-License-Identifier: MIT
// Which moments of a start are shown when it is played.
#include "ebbline/instants.h"

#include <algorithm>
#include <cmath>

namespace ebbline::report {
namespace {

constexpr double least_step_s = 1e-4; // two moments closer than this are one

/// How much there is to see up to a moment, from 0 to 1.
class Attention {
public:
    Attention(const Start& start, const Stretch& stretch, double worst_s)
        : m_stretch(stretch), m_worst_s(worst_s) {
        m_at_s.push_back(stretch.from_s);
        for (const Frame& frame : start.frames)
            if (frame.at_s > stretch.from_s && frame.at_s < stretch.to_s)
                m_at_s.push_back(frame.at_s);
        m_at_s.push_back(stretch.to_s);
        addUpChanges(start);
    }

    [[nodiscard]] double upTo(double at_s) const {
        return 0.3 * passed(at_s) + 0.3 * nearWorst(at_s) + 0.4 * changed(at_s);
    }

private:
    /// Volts that the fridge's own voltage has gone up and down; a leap counts as little as a step.
    void addUpChanges(const Start& start) {
        constexpr double leap_v = 0.15;
        m_changed.push_back(0);
        for (std::size_t i = 1; i < m_at_s.size(); ++i) {
            const double change_v = start::frameAt(start, m_at_s[i]).controller_v -
                                    start::frameAt(start, m_at_s[i - 1]).controller_v;
            m_changed.push_back(m_changed.back() + std::min(std::abs(change_v), leap_v));
        }
    }

    [[nodiscard]] double passed(double at_s) const {
        return (at_s - m_stretch.from_s) / (m_stretch.to_s - m_stretch.from_s);
    }

    [[nodiscard]] double nearWorst(double at_s) const {
        const double near_s = 0.04 * (m_stretch.to_s - m_stretch.from_s);
        const auto angle = [&](double time_s) { return std::atan((time_s - m_worst_s) / near_s); };
        return (angle(at_s) - angle(m_stretch.from_s)) /
               (angle(m_stretch.to_s) - angle(m_stretch.from_s));
    }

    [[nodiscard]] double changed(double at_s) const {
        if (m_changed.back() <= 0)
            return passed(at_s);
        const auto after = std::ranges::upper_bound(m_at_s, at_s);
        if (after == m_at_s.end())
            return 1;
        const auto i = static_cast<std::size_t>(after - m_at_s.begin());
        const double share = (at_s - m_at_s[i - 1]) / (m_at_s[i] - m_at_s[i - 1]);
        return std::lerp(m_changed[i - 1], m_changed[i], share) / m_changed.back();
    }

    Stretch m_stretch;
    double m_worst_s;
    std::vector<double> m_at_s;
    std::vector<double> m_changed;
};

/// The time at which so much has been seen.
double timeOf(const Attention& attention, const Stretch& stretch, double share) {
    double low_s = stretch.from_s;
    double high_s = stretch.to_s;
    while (high_s - low_s > least_step_s / 10) {
        const double middle_s = (low_s + high_s) / 2;
        (attention.upTo(middle_s) < share ? low_s : high_s) = middle_s;
    }
    return high_s;
}

/// Times that must be shown: what happens, and the moment before it, where a leap begins.
std::vector<double> fixedTimes(const Start& start, const Stretch& stretch, double worst_s) {
    std::vector<double> times{stretch.from_s, stretch.to_s, worst_s};
    for (const StartEvent& event : start.events)
        if (event.at_s > stretch.from_s && event.at_s < stretch.to_s)
            times.push_back(event.at_s);
    return times;
}

std::size_t nearest(const std::vector<double>& times, double at_s) {
    const auto closest =
        std::ranges::min_element(times, {}, [&](double time_s) { return std::abs(time_s - at_s); });
    return static_cast<std::size_t>(closest - times.begin());
}

} // namespace

Instants chooseInstants(const Start& start, const Stretch& stretch, std::size_t count) {
    const double worst_s = std::clamp(drawing::tellingMoment(start), stretch.from_s, stretch.to_s);
    const std::vector<double> fixed = fixedTimes(start, stretch, worst_s);
    const Attention attention(start, stretch, worst_s);
    Instants instants{.at_s = fixed};
    const std::size_t free = count - std::min(count, fixed.size());
    for (std::size_t i = 1; i <= free; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(free + 1);
        instants.at_s.push_back(timeOf(attention, stretch, share));
    }
    std::ranges::sort(instants.at_s);
    // Of two that are one, a fixed one stays: it is the one that is said elsewhere.
    std::vector<double> apart;
    for (const double at_s : instants.at_s) {
        if (apart.empty() || at_s - apart.back() >= least_step_s)
            apart.push_back(at_s);
        else if (std::ranges::find(fixed, at_s) != fixed.end())
            apart.back() = at_s;
    }
    // The very times that are said elsewhere, where two of them fell together too.
    apart[nearest(apart, worst_s)] = worst_s;
    instants.at_s = std::move(apart);
    instants.worst = nearest(instants.at_s, worst_s);
    for (const double at_s : fixed)
        if (at_s > stretch.from_s && at_s < stretch.to_s)
            instants.stations.push_back(nearest(instants.at_s, at_s));
    std::ranges::sort(instants.stations);
    const auto repeated = std::ranges::unique(instants.stations);
    instants.stations.erase(repeated.begin(), repeated.end());
    return instants;
}

} // namespace ebbline::report
