// SPDX-License-Identifier: MIT
// The box that the compressor cools: one heat capacity behind one heat conductance.
#pragma once

#include "ebbline/hours.h"

#include <algorithm>
#include <cmath>

namespace ebbline::study {

/// Its temperature follows an exponential while the cooling power stays the same.
class Box {
public:
    Box(const BoxLoad& box, double ambient_c)
        : m_w_per_k(box.w_per_k), m_j_per_k(box.kj_per_k * 1e3), m_ambient_c(ambient_c),
          m_on_c(box.inside_c + box.band_k / 2), m_off_c(box.inside_c - box.band_k / 2),
          m_inside_c(ambient_c > m_on_c ? m_on_c : box.inside_c) {}

    [[nodiscard]] double insideC() const { return m_inside_c; }
    /// The thermostat, with its band.
    [[nodiscard]] bool wantsCooling() {
        if (m_inside_c >= m_on_c - hairbreadth_k)
            m_wants = true;
        else if (m_inside_c <= m_off_c + hairbreadth_k)
            m_wants = false;
        return m_wants;
    }
    /// So long until the thermostat switches; infinite when it does not get there.
    [[nodiscard]] double switchesIn(double cooling_w) const {
        const double goal_c = m_wants ? m_off_c : m_on_c;
        const double end_c = settlesAt(cooling_w);
        const double share = (goal_c - end_c) / (m_inside_c - end_c);
        return share > 0 && share < 1 ? -tau() * std::log(share) : INFINITY;
    }
    /// Lets time pass; the heat that came in through the walls, joules.
    double pass(double seconds, double cooling_w) {
        const double end_c = settlesAt(cooling_w);
        const double left = std::exp(-seconds / tau());
        const double heat_in_j = m_w_per_k * ((m_ambient_c - end_c) * seconds -
                                              (m_inside_c - end_c) * tau() * (1 - left));
        m_inside_c = end_c + (m_inside_c - end_c) * left;
        return heat_in_j;
    }

private:
    static constexpr double hairbreadth_k = 1e-6;

    [[nodiscard]] double tau() const { return m_j_per_k / m_w_per_k; }
    [[nodiscard]] double settlesAt(double cooling_w) const {
        return m_ambient_c - cooling_w / m_w_per_k;
    }

    double m_w_per_k;
    double m_j_per_k;
    double m_ambient_c;
    double m_on_c;
    double m_off_c;
    double m_inside_c;
    bool m_wants = false;
};

} // namespace ebbline::study
