// SPDX-License-Identifier: MIT
// A day of cycling second by second, from models/README.md alone.
#include "day_by_seconds.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace ebbline::seconds {
namespace {

/// The mean torque of the indicator diagram, N m.
double meanTorque(const Controller& unit, double pressure) {
    const double suction = unit.rest_bar - (unit.rest_bar - unit.suction_bar) * pressure;
    const double head = unit.rest_bar + (unit.head_bar - unit.rest_bar) * pressure;
    const double n = unit.polytropic;
    const double k = std::pow(head / suction, 1 / n);
    const double clearance = unit.clearance_pct / 100;
    return unit.displacement_cm3 * 1e-6 * 1e5 / (2 * std::numbers::pi) * n / (n - 1) * suction *
           (1 + clearance - clearance * k) * (std::pow(k, n - 1) - 1);
}

double openCircuit(double charge) {
    constexpr std::array<std::pair<double, double>, 6> points{
        {{0, 11.89}, {0.1, 11.95}, {0.25, 12.06}, {0.5, 12.24}, {0.75, 12.45}, {1, 12.65}}};
    std::size_t i = 1;
    while (i + 1 < points.size() && charge > points[i].first)
        ++i;
    const auto& [q0, v0] = points[i - 1];
    const auto& [q1, v1] = points[i];
    return v0 + (charge - q0) / (q1 - q0) * (v1 - v0);
}

class Stepper {
public:
    explicit Stepper(const Setup& setup)
        : m_setup(setup), m_charge(setup.charge), m_inside_c(setup.inside_c + setup.band_k / 2) {
        const double condenser_c = std::max(setup.ambient_c + 20, 20.0);
        m_cop = setup.cop * 55 / (condenser_c + 10);
    }

    Result run() {
        long second = 0;
        const long last = std::lround(m_setup.until_h * 3600);
        for (; second < last && !m_ended; ++second)
            oneSecond(static_cast<double>(second) / 3600);
        m_result.running_share = m_running_s / static_cast<double>(std::max(second, 1L));
        m_result.charge = m_charge;
        return m_result;
    }

private:
    static bool isOn(double hour, double from_h, double to_h) {
        const double of_day = std::fmod(hour, 24.0);
        return of_day >= from_h && of_day < to_h;
    }

    void oneSecond(double hour) {
        const double load_a =
            isOn(hour, m_setup.load_from_h, m_setup.load_to_h) ? m_setup.load_a : 0;
        const bool charging = isOn(hour, m_setup.charger_from_h, m_setup.charger_to_h);
        thermostat();
        if (!m_wants)
            m_running = false;
        else if (!m_running)
            tryToStart(hour, load_a, charging);
        settle(load_a, charging, m_running);
        if (m_running && m_fridge_v < m_setup.unit.cut_out_v) {
            cutOut(hour);
            settle(load_a, charging, false);
        }
        if (m_charge <= 0 && !m_result.flat_h)
            m_result.flat_h = hour;
        account(load_a);
    }

    void thermostat() {
        if (m_inside_c >= m_setup.inside_c + m_setup.band_k / 2)
            m_wants = true;
        if (m_inside_c <= m_setup.inside_c - m_setup.band_k / 2)
            m_wants = false;
    }

    void tryToStart(double hour, double load_a, bool charging) {
        settle(load_a, charging, false);
        if (m_fridge_v < m_setup.unit.cut_out_v)
            m_good = false;
        else if (m_fridge_v > m_setup.unit.cut_in_v)
            m_good = true;
        if (!m_good)
            return;
        if (m_charge < m_setup.start_limit) {
            if (!m_result.start_fails_h)
                m_result.start_fails_h = hour;
            return;
        }
        settle(load_a, charging, true);
        if (m_fridge_v < m_setup.unit.cut_out_v) {
            cutOut(hour);
            return;
        }
        m_running = true;
        ++m_result.starts;
    }

    void cutOut(double hour) {
        m_running = m_good = false;
        if (!m_result.cut_out_h)
            m_result.cut_out_h = hour;
        m_ended = m_setup.to_the_end;
    }

    /// Voltages and currents of this second, the RC pairs as they stand.
    void settle(double load_a, bool charging, bool running) {
        const double missing = 1 - m_charge;
        m_whole = 0.4 / m_setup.capacity_ah * (1 + m_setup.age) *
                  (1 + 0.025 * std::max(0.0, 20 - m_setup.ambient_c)) *
                  (1 + 1.5625 * missing * missing);
        const double ohmic = 0.7 * m_whole;
        const double inner_v = openCircuit(m_charge) - m_fast_v - m_slow_v;
        for (int i = 0; i < 8; ++i) {
            const double taken_a = m_fridge_a + load_a;
            m_charger_a = 0;
            double terminal_v = inner_v - ohmic * taken_a;
            if (charging && m_setup.charger_a > 0) {
                const double held_v =
                    (terminal_v + ohmic / m_setup.charger_ohm * m_setup.charger_v) /
                    (1 + ohmic / m_setup.charger_ohm);
                m_charger_a = std::clamp(
                    (m_setup.charger_v - held_v) / m_setup.charger_ohm, 0.0, m_setup.charger_a);
            }
            m_battery_a = taken_a - m_charger_a;
            terminal_v = inner_v - ohmic * m_battery_a;
            const double over = m_fridge_a / m_setup.fuse_rating_a;
            const double fuse_ohm =
                m_setup.holder_ohm + m_setup.element_ohm * (1 + 0.4 * std::min(over * over, 2.0));
            m_fridge_v = terminal_v - (m_setup.loop_ohm + fuse_ohm) * m_fridge_a;
            m_fridge_a = running ? runningWatts(m_setup.unit, m_fridge_v) / m_fridge_v
                                 : m_setup.unit.standby_w / m_fridge_v + m_fridge_v / 1e5;
        }
    }

    void account(double load_a) {
        m_result.fridge_ah += m_fridge_a / 3600;
        m_result.loads_ah += load_a / 3600;
        m_result.charged_ah += m_charger_a / 3600;
        m_running_s += m_running ? 1 : 0;
        m_charge = std::clamp(m_charge - m_battery_a / 3600 / m_setup.capacity_ah, 0.0, 1.0);
        m_fast_v += (0.1 * m_whole * m_battery_a - m_fast_v) / 10;
        m_slow_v += (0.2 * m_whole * m_battery_a - m_slow_v) / 60;
        const double cooling_w = m_running ? m_cop * m_fridge_v * m_fridge_a : 0;
        m_inside_c +=
            (m_setup.w_per_k * (m_setup.ambient_c - m_inside_c) - cooling_w) / m_setup.j_per_k;
    }

    const Setup& m_setup;
    Result m_result;
    double m_charge;
    double m_inside_c;
    double m_cop = 0;
    double m_whole = 0;
    double m_fast_v = 0;
    double m_slow_v = 0;
    double m_fridge_v = 0;
    double m_fridge_a = 0;
    double m_charger_a = 0;
    double m_battery_a = 0;
    double m_running_s = 0;
    bool m_wants = false;
    bool m_running = false;
    bool m_good = false;
    bool m_ended = false;
};

} // namespace

double runningWatts(const Controller& unit, double volts) {
    const double target = unit.speed_rpm * std::numbers::pi / 30;
    const double limit = unit.duty_limit_pct / 100;
    double speed = target;
    double link_v = volts;
    double supply_a = 0;
    for (int i = 0; i < 12; ++i) {
        // What builds up while it turns equals what bleeds away for want of speed.
        const double builds = speed / target / unit.build_s;
        const double bleeds = std::max(0.0, 1 - speed / target) / unit.bleed_s;
        const double pressure = builds / (builds + bleeds);
        const double motor_a = (meanTorque(unit, pressure) + unit.friction) / unit.motor_constant;
        const double wanted = target - motor_a / unit.speed_gain;
        const double possible = (limit * link_v - unit.winding_ohm * motor_a) / unit.motor_constant;
        speed = std::min(wanted, possible);
        const double duty = (unit.motor_constant * speed + unit.winding_ohm * motor_a) / link_v;
        supply_a = duty * motor_a / (unit.efficiency_pct / 100) +
                   (unit.standby_w + unit.fan_w) / link_v + link_v / 5000;
        link_v = volts - supply_a * unit.input_mohm * 1e-3;
    }
    return volts * (supply_a + volts / 1e5);
}

Result step(const Setup& setup) {
    return Stepper(setup).run();
}

} // namespace ebbline::seconds
