// SPDX-License-Identifier: MIT
// Where the energy of one run went: battery, wiring, unit and compressor, by their own laws.
#include "energy.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace ebbline::energy {
namespace {

constexpr std::array inner_names{
    "link", "store", "duty", "spinning", "turn", "ripple", "mean", "pass"};

double sum(const std::map<std::string, double>& parts) {
    return std::accumulate(parts.begin(), parts.end(), 0.0, [](double before, const auto& part) {
        return before + part.second;
    });
}

std::string unitName(const Netlist& netlist) {
    return "xd" + std::to_string(netlist.network.subject());
}

/// Between the call terminals where nothing is wired to them.
std::string callVector(const Netlist& netlist) {
    return "v(c" + std::to_string(netlist.network.subject()) + ")";
}

/// One step of the run: quantities at its beginning and its end.
class Reader {
public:
    explicit Reader(const runs::Run& run)
        : m_run(run), m_network(run.netlist.network),
          m_unit(std::get<Controller>(
              m_network.installation.findPart(m_network.installation.subject)->body)) {}

    Account read() {
        for (std::size_t i = 1; i < m_run.solved.time_s.size(); ++i) {
            m_step = i;
            m_seconds = m_run.solved.time_s[i] - m_run.solved.time_s[i - 1];
            addElements();
            addUnit();
        }
        addStored(m_run.solved.time_s.size() - 1, 1);
        addStored(0, -1);
        return std::move(m_account);
    }

private:
    [[nodiscard]] double at(int vector, std::size_t i) const {
        return vector < 0 ? 0 : m_run.solved.vectors[static_cast<std::size_t>(vector)][i];
    }
    /// Mean over the step.
    [[nodiscard]] double mean(int vector) const {
        return (at(vector, m_step - 1) + at(vector, m_step)) / 2;
    }
    [[nodiscard]] int find(const std::string& vector) const {
        const auto& all = m_run.netlist.job.vectors;
        const auto place = std::ranges::find(all, vector);
        if (place == all.end())
            throw std::logic_error("the run was not asked for " + vector);
        return static_cast<int>(place - all.begin());
    }
    [[nodiscard]] int inner(const std::string& name) const {
        return find("v(" + unitName(m_run.netlist) + "." + name + ")");
    }
    [[nodiscard]] const Probe& probeOf(std::size_t element) const {
        return m_run.netlist.probes[element];
    }
    [[nodiscard]] const Probe& subject() const {
        return probeOf(static_cast<std::size_t>(m_network.subject()));
    }

    void addHeat(const std::string& what, double watts) {
        m_account.heat[what] += watts * m_seconds;
    }

    void addElements() {
        for (std::size_t i = 0; i < m_network.elements.size(); ++i) {
            const Probe& probe = probeOf(i);
            const double amps = mean(probe.current);
            switch (m_network.elements[i].kind) {
            case ElementKind::Battery:
                addBattery(probe, amps);
                break;
            case ElementKind::Fuse:
                addHeat("fuse", mean(probe.ohms) * amps * amps);
                break;
            default:
                break;
            }
        }
        for (const Branch& branch : m_network.branches)
            addBranch(branch);
    }

    void addBattery(const Probe& probe, double amps) {
        m_account.in += mean(probe.source_v) * amps * m_seconds;
        const double ohms = mean(probe.ohms);
        addHeat("battery", ohms * amps * amps);
        // The two RC pairs: 10 and 20 % of the whole resistance, of which 70 % are ohmic.
        for (const auto& [share, vector] :
             {std::pair(0.1, probe.inside_v[0]), std::pair(0.2, probe.inside_v[1])})
            addHeat("battery, slowly", mean(vector) * mean(vector) / (share / 0.7 * ohms));
    }

    /// Cables and joints, and the resistor that damps what is faster than 10 ns.
    void addBranch(const Branch& branch) {
        const Probe& probe = probeOf(static_cast<std::size_t>(branch.members.front().element));
        const double amps = mean(probe.current);
        addHeat("wiring", branch.ohm * amps * amps);
        if (branch.henry > 0)
            addHeat("wiring", std::pow(mean(probe.inner) - mean(probe.to), 2) / damping(branch));
    }
    static double damping(const Branch& branch) { return branch.henry / 1e-8; }

    void addUnit() {
        const double plus = mean(subject().from);
        const double minus = mean(subject().to);
        const double link = mean(inner("link"));
        const double volts = plus - minus;
        const double u = link - minus;
        const double amps = mean(subject().current); // behind the leak across the terminals
        addHeat("leak", volts * volts / 1e5);
        const bool is_on = at(inner("pass"), m_step - 1) == 1 && at(inner("pass"), m_step) == 1;
        addHeat("input switch",
                is_on ? amps * amps * m_unit.input_mohm * 1e-3 : amps * (plus - link));
        const double charging = (link - mean(inner("store"))) / (m_unit.esr_mohm * 1e-3);
        addHeat("capacitor", charging * charging * m_unit.esr_mohm * 1e-3);
        const double pulled = link - mean(find(callVector(m_run.netlist)));
        addHeat("call", pulled * u / 5000);
        addHeat("electronics and fan",
                u / std::max(u, 2.0) * part(u) *
                    (m_unit.standby_w + m_unit.fan_w * mean(m_run.netlist.unit.active)));
        addMotor(u);
    }

    static double part(double u) { return std::clamp(u / 2, 0.0, 1.0); }

    void addMotor(double u) {
        const double amps = mean(m_run.netlist.unit.motor_a);
        const double speed = mean(m_run.netlist.unit.speed);
        const double active = mean(m_run.netlist.unit.active);
        const double spin = mean(inner("spinning"));
        const double driven = mean(inner("duty")) * u * amps;
        addHeat("inverter", driven * (part(u) * 100 / m_unit.efficiency_pct - 1));
        addHeat("winding", active * m_unit.winding_ohm * amps * amps);
        addHeat("freewheeling", (1 - active) * amps * amps);
        // What holds the rotor while it is being let go, and when it is given up.
        addHeat("hold", m_unit.motor_constant * amps * speed * (active - spin));
        const double ripple = mean(inner("ripple"));
        const double grip = std::tanh(speed);
        addHeat("friction", m_unit.friction * grip * speed);
        m_account.shaft +=
            (ripple * mean(inner("turn")) + (1 - ripple) * mean(inner("mean")) * grip) * speed *
            m_seconds;
    }

    void addStored(std::size_t i, double sign) {
        const auto add = [&](const std::string& what, double twice) {
            m_account.stored[what] += sign * twice / 2;
        };
        for (const Branch& branch : m_network.branches) {
            const Probe& probe = probeOf(static_cast<std::size_t>(branch.members.front().element));
            if (branch.henry <= 0)
                continue;
            const double coil =
                at(probe.current, i) - (at(probe.inner, i) - at(probe.to, i)) / damping(branch);
            add("cables", branch.henry * coil * coil);
        }
        for (std::size_t k = 0; k < m_network.elements.size(); ++k)
            if (m_network.elements[k].kind == ElementKind::Battery)
                for (const auto& [share, seconds, vector] :
                     {std::tuple(0.1, 10.0, probeOf(k).inside_v[0]),
                      std::tuple(0.2, 60.0, probeOf(k).inside_v[1])})
                    add("battery",
                        seconds / (share / 0.7 * at(probeOf(k).ohms, i)) *
                            std::pow(at(vector, i), 2));
        add("capacitor",
            m_unit.capacitor_uf * 1e-6 * std::pow(at(inner("store"), i) - at(subject().to, i), 2));
        add("winding", m_unit.winding_uh * 1e-6 * std::pow(at(m_run.netlist.unit.motor_a, i), 2));
        add("rotor", m_unit.inertia * std::pow(at(m_run.netlist.unit.speed, i), 2));
    }

    const runs::Run& m_run;
    const Network& m_network;
    const Controller& m_unit;
    Account m_account;
    std::size_t m_step = 1;
    double m_seconds = 0;
};

} // namespace

double Account::heats() const {
    return sum(heat);
}

double Account::stores() const {
    return sum(stored);
}

void want(Netlist& netlist) {
    std::vector<std::string> more{callVector(netlist)};
    for (const char* name : inner_names)
        more.push_back("v(" + unitName(netlist) + "." + name + ")");
    std::string saves;
    for (const std::string& vector : more) {
        netlist.job.vectors.push_back(vector);
        saves += ".save " + vector + "\n";
    }
    netlist.job.circuit.insert(netlist.job.circuit.find(".tran "), saves);
}

Account read(const runs::Run& run) {
    return Reader(run).read();
}

} // namespace ebbline::energy
