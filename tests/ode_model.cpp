// SPDX-License-Identifier: MIT
// The same start as ordinary differential equations, from models/README.md alone.
#include "ode_model.h"

#include <boost/numeric/odeint.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>

namespace ebbline::ode {
namespace {

enum Index {
    Line,
    Store,
    Sensed,
    Motor,
    Speed,
    Angle,
    Pressure,
    Timer,
    Waited,
    Slow,
    Fast,
    Held,
    Link,
    Ends,
    Charge,
    Count
};
using State = std::array<double, Count>;

double clamp01(double x) {
    return std::min(1.0, std::max(0.0, x));
}

/// What only events change.
struct Mode {
    bool good = false;
    bool ever = false;
    bool waiting = false;
    bool called = false;
    [[nodiscard]] bool active() const { return good && called && !waiting; }
};

/// The right-hand sides. Left out, because no case here comes near: the link of the fuse parting,
/// the highest voltage, reversed polarity, the input's transistor below 1.5 V, the 1 ms in
/// which a contact moves, the leak of an open contact.
class Equations {
public:
    explicit Equations(const Setup& setup) : m_setup(setup), m_unit(setup.unit) {
        const double missing = 1 - setup.charge;
        m_whole = 0.4 / setup.capacity_ah * (1 + 0.025 * std::max(0.0, 20 - setup.temperature_c)) *
                  (1 + 1.5625 * missing * missing);
        m_target = m_unit.speed_rpm * std::numbers::pi / 30;
    }

    Mode mode;

    [[nodiscard]] double target() const { return m_target; }

    [[nodiscard]] double openCircuit(double charge) const {
        constexpr std::array<std::pair<double, double>, 6> points{
            {{0, 11.89}, {0.1, 11.95}, {0.25, 12.06}, {0.5, 12.24}, {0.75, 12.45}, {1, 12.65}}};
        std::size_t i = 1;
        while (i + 1 < points.size() && charge > points[i].first)
            ++i;
        const double share =
            (charge - points[i - 1].first) / (points[i].first - points[i - 1].first);
        return points[i - 1].second + share * (points[i].second - points[i - 1].second);
    }

    /// Link voltage: between it and the capacitor lies the ESR, towards it flows the line current.
    [[nodiscard]] double linkVolts(const State& s) const {
        // u satisfies: line - draw(u) - (u - store) / esr = 0; a fixed point that settles quickly.
        double u = s[Store];
        for (int i = 0; i < 40; ++i) {
            const double before = u;
            u = s[Store] + m_unit.esr_mohm * 1e-3 * (s[Line] - draw(s, u));
            if (std::abs(u - before) < 1e-12)
                break;
        }
        return u;
    }

    [[nodiscard]] double terminalVolts(const State& s) const {
        return linkVolts(s) + m_unit.input_mohm * 1e-3 * s[Line];
    }

    void operator()(const State& s, State& d, double /*time*/) const {
        const bool active = mode.active();
        const double u = linkVolts(s);
        const double v = u + m_unit.input_mohm * 1e-3 * s[Line];
        const double heat = 0.6 * s[Link] + 0.4 * s[Ends];
        const double fuse =
            m_setup.holder_ohm + m_setup.element_ohm * (1 + 0.4 * std::min(heat, 2.0));
        const double source = openCircuit(s[Charge]) - s[Fast] - s[Held] - 0.7 * m_whole * s[Line];
        d[Line] = (source - (m_setup.loop_ohm + fuse) * s[Line] - v) / m_setup.loop_henry;
        d[Store] = (s[Line] - draw(s, u)) / (m_unit.capacitor_uf * 1e-6);
        d[Sensed] = (v - s[Sensed]) / m_unit.filter_s;
        d[Fast] = (0.1 * m_whole * s[Line] - s[Fast]) / 10;
        d[Held] = (0.2 * m_whole * s[Line] - s[Held]) / 60;
        const double load = s[Line] / m_setup.fuse_rating_a * s[Line] / m_setup.fuse_rating_a;
        d[Link] = (load - s[Link]) / 0.7;
        d[Ends] = (load - s[Ends]) / 60;
        d[Charge] = -s[Line] / (3600 * m_setup.capacity_ah);
        d[Timer] = active ? 1 : -50 * s[Timer];
        d[Waited] = mode.waiting ? 1 : -50 * s[Waited];
        const double stalling = m_unit.stall_rpm * std::numbers::pi / 30;
        const double crawl =
            spin(s) * (1 - std::tanh((s[Speed] - stalling) / (0.1 * stalling))) / 2;
        d[Slow] = crawl - 20 * (1 - crawl) * s[Slow];
        const double inductance = m_unit.winding_uh * 1e-6;
        d[Motor] = active ? (duty(s, u) * u - lineOhm() * s[Motor] -
                             intact() * m_unit.motor_constant * s[Speed]) /
                                inductance
                          : -s[Motor] / inductance;
        turn(s, d);
    }

private:
    [[nodiscard]] double intact() const { return 1 - m_unit.shorted_pct / 100; }
    [[nodiscard]] double lineOhm() const {
        return m_unit.winding_ohm * intact() + m_unit.plug_mohm / 1000;
    }
    [[nodiscard]] double brake() const {
        return m_unit.shorted_pct / 100 * m_unit.motor_constant * m_unit.motor_constant /
               m_unit.winding_ohm;
    }
    [[nodiscard]] double spin(const State& s) const {
        return mode.active() ? clamp01((s[Timer] - m_unit.delay_s - m_unit.position_s) / 0.02) : 0;
    }
    [[nodiscard]] double wanted(const State& s) const {
        const double begin = m_unit.delay_s + m_unit.position_s;
        const double ramp = m_target * clamp01((s[Timer] - begin) / m_unit.spin_up_s);
        const double chase =
            std::min(m_unit.current_limit_a, std::max(0.0, m_unit.speed_gain * (ramp - s[Speed])));
        return (1 - spin(s)) * m_unit.position_a * clamp01((s[Timer] - m_unit.delay_s) / 0.05) +
               spin(s) * chase;
    }
    [[nodiscard]] double duty(const State& s, double u) const {
        if (!mode.active())
            return 0;
        const double volts =
            intact() * m_unit.motor_constant * s[Speed] + lineOhm() * s[Motor] +
            m_unit.winding_uh * 1e-6 / m_unit.current_lag_s * (wanted(s) - s[Motor]);
        return std::min(m_unit.duty_limit_pct / 100, std::max(0.0, volts / std::max(u, 1.0)));
    }
    /// Current drawn from the link, the pull-up of the call terminals included.
    [[nodiscard]] double draw(const State& s, double u) const {
        const double fan = mode.active() ? m_unit.fan_w : 0;
        const double inverter = duty(s, u) * s[Motor] / (m_unit.efficiency_pct / 100);
        const double call = mode.called ? u / 5000 : 0;
        return (inverter + (m_unit.standby_w + fan) / std::max(u, 2.0)) * clamp01(u / 2) + call;
    }
    void turn(const State& s, State& d) const {
        const double x = s[Pressure];
        const double ps = m_unit.rest_bar - (m_unit.rest_bar - m_unit.suction_bar) * x;
        const double pd = m_unit.rest_bar + (m_unit.head_bar - m_unit.rest_bar) * x;
        const double n = m_unit.polytropic;
        const double c = m_unit.clearance_pct / 100;
        const double l = m_unit.crank_ratio;
        const double sine = std::sin(s[Angle]);
        const double root = std::sqrt(1 - l * l * sine * sine);
        const double volume = c + (1 - std::cos(s[Angle]) + (1 - root) / l) / 2;
        const double p = sine > 0 ? std::max(ps, pd * std::pow(c / volume, n))
                                  : std::min(pd, ps * std::pow((1 + c) / volume, n));
        const double area = std::numbers::pi / 4 * m_unit.bore_mm * m_unit.bore_mm * 1e-6;
        const double displacement = m_unit.displacement_cm3 * 1e-6;
        const double crank = displacement / (2 * area);
        const double torque =
            (ps - p) * 1e5 * area * crank * (sine + l * sine * std::cos(s[Angle]) / root);
        const double k = std::pow(pd / ps, 1 / n);
        const double mean = displacement * 1e5 / (2 * std::numbers::pi) * n / (n - 1) * ps *
                            (1 + c - c * k) * (std::pow(k, n - 1) - 1);
        const double ripple = mode.active() ? clamp01((m_unit.ripple_s - s[Timer]) / 0.2) : 0;
        const double w = s[Speed];
        d[Speed] = (intact() * m_unit.motor_constant * s[Motor] * spin(s) - brake() * s[Speed] -
                    ripple * torque - ((1 - ripple) * mean + m_unit.friction) * std::tanh(w)) /
                   m_unit.inertia;
        d[Angle] = ripple * w - (mode.active() ? 0 : 20 * (s[Angle] - m_unit.start_angle_rad));
        d[Pressure] = w / m_target * (1 - x) / m_unit.build_s -
                      std::max(0.0, 1 - w / m_target) * x / m_unit.bleed_s;
    }

    const Setup& m_setup;
    const Controller& m_unit;
    double m_whole = 0;
    double m_target = 0;
};

class Solver {
public:
    explicit Solver(const Setup& setup) : m_setup(setup), m_equations(setup) {
        m_state.fill(0);
        m_state[Charge] = setup.charge;
        m_state[Angle] = setup.unit.start_angle_rad;
        m_state[Pressure] = setup.unit.pressure_pct / 100;
        m_cut_out = setup.unit.cut_out_v - (setup.held_off ? 1000 : 0);
    }

    Result run() {
        while (m_time < m_setup.end_s)
            advance();
        if (m_result.outcome.empty())
            m_result.outcome = m_attempts > 0          ? "starts"
                               : m_equations.mode.ever ? "none"
                                                       : "supply-low";
        return m_result;
    }

private:
    /// One accepted step; cut back to the first event within it.
    void advance() {
        const double limit = m_equations.mode.active() ? 2e-4 : 5e-3;
        double step = std::min({m_step, limit, m_setup.end_s - m_time});
        for (const double at_s : {m_setup.call_s, m_setup.power_s})
            if (m_time < at_s)
                step = std::min(step, at_s - m_time);
        State next = m_state;
        double after = m_time;
        while (!tryStep(next, after, step)) {
            next = m_state;
            after = m_time;
        }
        const double taken = after - m_time;
        m_step = std::max(step, 1e-9);
        const auto event = firstEvent(next);
        if (event < 0) {
            accept(next, after);
            watch();
            return;
        }
        locate(event, taken);
    }

    /// False when the step was too long; `step` is then a shorter one to try. A step so long that
    /// it runs away to no number at all has no error estimate either.
    [[nodiscard]] bool tryStep(State& next, double& after, double& step) {
        const double tried = step;
        if (m_stepper.try_step(std::ref(m_equations), next, after, step) ==
            boost::numeric::odeint::fail)
            return false;
        if (std::ranges::all_of(next, [](double value) { return std::isfinite(value); }))
            return true;
        m_stepper = makeStepper();
        step = tried / 10;
        return false;
    }

    [[nodiscard]] double eventValue(int event, const State& s) const {
        const Mode& mode = m_equations.mode;
        const Controller& unit = m_setup.unit;
        switch (event) {
        case 0:
            return mode.good ? -1 : s[Sensed] - unit.cut_in_v;
        case 1:
            return mode.good ? m_cut_out - s[Sensed] : -1;
        case 2:
            return mode.waiting && mode.good ? s[Waited] - unit.retry_s : -1;
        case 3:
            return mode.active() ? s[Slow] - unit.stall_s : -1;
        default:
            return mode.called || m_time < m_setup.call_s ? -1 : 1;
        }
    }
    /// Steps are so short beside the logic's times that no two events share one in these cases.
    [[nodiscard]] int firstEvent(const State& next) const {
        for (int event = 0; event < 5; ++event)
            if (eventValue(event, next) > 0)
                return event;
        return -1;
    }

    /// One step from the last accepted state. The stepper keeps the derivative at the end of its
    /// last step as that at the beginning of the next, so a step taken over needs a new one.
    [[nodiscard]] State stepBy(double step) const {
        State next{};
        Dopri().do_step(std::ref(m_equations), m_state, m_time, next, step);
        return next;
    }

    /// Bisects a step of `taken` seconds for the event and lets it happen.
    void locate(int event, double taken) {
        double before = 0;
        double behind = taken;
        for (int i = 0; i < 60 && behind - before > 1e-12; ++i) {
            const double middle = (before + behind) / 2;
            (eventValue(event, stepBy(middle)) > 0 ? behind : before) = middle;
        }
        accept(stepBy(behind), m_time + behind);
        watch();
        happen(event);
        m_stepper = makeStepper();
        m_step = 1e-6;
    }

    void happen(int event) {
        Mode& mode = m_equations.mode;
        const bool was_active = mode.active();
        if (event == 0)
            mode.good = mode.ever = true;
        if (event == 1)
            mode.good = false;
        if (event == 1 || event == 3)
            mode.waiting = true;
        if (event == 2) {
            mode.waiting = false;
            m_result.events.push_back({m_time, "tries again"});
        }
        if (event == 4)
            mode.called = true;
        if (was_active && !mode.active()) {
            m_result.events.push_back({m_time, "gave up"});
            if (m_attempts == 1 && m_result.outcome.empty())
                m_result.outcome = event == 3 ? "stalls" : "trips";
        }
        if (!was_active && mode.active())
            m_positions = m_spins = m_full = false;
    }

    void accept(const State& next, double time) {
        m_before = m_state;
        m_before_time = m_time;
        m_state = next;
        m_time = time;
    }

    void mark(bool& done, Index index, double level, const char* what) {
        if (done || m_state[index] < level)
            return;
        done = true;
        const double share = (level - m_before[index]) / (m_state[index] - m_before[index]);
        m_result.events.push_back({m_before_time + share * (m_time - m_before_time), what});
        if (std::string(what) == "positions" && ++m_attempts == 1)
            m_result.lowest_v = m_result.sensed_lowest_v = 1e9;
    }

    void watch() {
        if (!m_equations.mode.active())
            return;
        const Controller& unit = m_setup.unit;
        mark(m_positions, Timer, unit.delay_s, "positions");
        mark(m_spins, Timer, unit.delay_s + unit.position_s, "spins up");
        mark(m_full, Speed, 0.9 * m_equations.target(), "full speed");
        if (m_attempts == 1 && m_result.outcome.empty()) {
            m_result.lowest_v = std::min(m_result.lowest_v, m_equations.terminalVolts(m_state));
            if (m_state[Sensed] < m_result.sensed_lowest_v) {
                m_result.sensed_lowest_v = m_state[Sensed];
                m_result.envelope.push_back({m_time, m_state[Sensed]});
            }
        }
    }

    using Dopri = boost::numeric::odeint::runge_kutta_dopri5<State>;
    using Stepper = boost::numeric::odeint::result_of::make_controlled<Dopri>::type;
    static Stepper makeStepper() {
        return boost::numeric::odeint::make_controlled(1e-9, 1e-9, Dopri());
    }

    const Setup& m_setup;
    Equations m_equations;
    Stepper m_stepper = makeStepper();
    State m_state{};
    State m_before{};
    double m_time = m_setup.power_s;
    double m_before_time = m_setup.power_s;
    double m_step = 1e-7;
    double m_cut_out = 0;
    int m_attempts = 0;
    bool m_positions = false;
    bool m_spins = false;
    bool m_full = false;
    Result m_result;
};

} // namespace

std::optional<double> firstTime(const Result& result, const std::string& what) {
    const auto place = std::ranges::find(result.events, what, &Happening::what);
    return place == result.events.end() ? std::nullopt : std::optional(place->at_s);
}

Result solve(const Setup& setup) {
    return Solver(setup).run();
}

} // namespace ebbline::ode
