// SPDX-License-Identifier: MIT
// The circuit of one run: options, devices, branches, wanted vectors, the models verbatim.
#include "cards.h"
#include "causes.h"
#include "horizon.h"

#include "ebbline/error.h"
#include "ebbline/netlist.h"

#include <algorithm>
#include <map>
#include <set>

namespace ebbline::netlist {
namespace {

// A contact's resistance moves on a logarithmic path, so it cannot be zero.
constexpr double smallest_contact_mohm = 1e-3;

class Builder {
public:
    Builder(const Network& network, const Models& models, const RunSettings& settings)
        : m_models(models) {
        m_netlist.network = network;
        m_netlist.settings = settings;
        m_netlist.probes.resize(network.elements.size());
        if (network.loop)
            for (const auto& way : {network.loop->out, network.loop->back})
                for (const Step& step : way)
                    m_loop.insert(step.element);
    }

    Netlist build() {
        m_text = "* start of a compressor fridge; nodes and devices are numbered, see the map\n";
        m_text += options(m_netlist.settings.accuracy);
        for (std::size_t i = 0; i < elements().size(); ++i)
            addDevice(i);
        for (std::size_t i = 0; i < m_netlist.network.branches.size(); ++i)
            addBranch(i);
        addLeaks();
        m_netlist.job.stop_s = stopTime(m_netlist);
        m_netlist.job.highest_v = highestSource(m_netlist.network.installation);
        m_netlist.job.usual_points = usualPoints(m_netlist.settings.accuracy,
                                                 m_netlist.job.stop_s,
                                                 openingsBefore(m_netlist.job.stop_s));
        for (const std::string& vector : m_netlist.job.vectors)
            m_text += ".save " + vector + "\n";
        m_text += transient(m_netlist.settings.accuracy, m_netlist.job.stop_s);
        for (const std::string& name : m_used)
            m_text += m_models.circuits.at(name);
        m_text += ".end\n";
        m_netlist.job.circuit = std::move(m_text);
        return std::move(m_netlist);
    }

private:
    [[nodiscard]] const std::vector<Element>& elements() const {
        return m_netlist.network.elements;
    }

    [[nodiscard]] std::size_t openingsBefore(double stop_s) const {
        std::size_t count = 0;
        for (const Element& element : elements())
            for (const auto& [at_s, closes] : element.openings)
                count += !closes && at_s < stop_s ? 1 : 0;
        return count;
    }

    /// Index of a wanted vector; the same vector is asked for once.
    int want(const std::string& vector) {
        const auto [place, is_new] =
            m_wanted.try_emplace(vector, static_cast<int>(m_netlist.job.vectors.size()));
        if (is_new)
            m_netlist.job.vectors.push_back(vector);
        return place->second;
    }

    int wantNode(int node) {
        if (node == 0)
            return -1;
        const int index = want("v(" + nodeName(node) + ")");
        auto& potentials = m_netlist.job.potentials;
        if (std::ranges::find(potentials, index) == potentials.end())
            potentials.push_back(index);
        return index;
    }

    /// One line of the circuit; remembers which model it uses.
    void card(const std::string& name,
              const std::string& nodes,
              const std::string& model,
              const std::string& parameters) {
        EBBLINE_ASSERT(m_models.circuits.contains(model), "every device has its circuit model");
        m_used.insert(model);
        m_text.append(name).append(" ").append(nodes).append(" ").append(model).append(parameters);
        m_text += "\n";
    }

    void addBranch(std::size_t index) {
        const Branch& branch = m_netlist.network.branches[index];
        const std::string name = "xb" + std::to_string(index);
        const std::string nodes = nodeName(branch.from) + " " + nodeName(branch.to);
        const double ohm = m_netlist.settings.loop_scale == 1 ? branch.ohm : scaledOhm(branch);
        Probe probe{.branch = static_cast<int>(index)};
        if (branch.henry > 0) {
            card(
                name, nodes, "conductor", parameter("ohm", ohm) + parameter("henry", branch.henry));
            probe.current = want("v." + name + ".vi#branch");
            probe.inner = want("v(" + name + ".inner)");
        } else {
            card(name, nodes, "joint", parameter("ohm", std::max(ohm, 1e-9)));
            probe.current = want("v." + name + ".vi#branch");
        }
        probe.from = wantNode(branch.from);
        probe.to = wantNode(branch.to);
        for (const Member& member : branch.members) {
            probe.share = member.share;
            m_netlist.probes[static_cast<std::size_t>(member.element)] = probe;
        }
    }

    /// Resistance of a branch, its members on the supply loop scaled.
    [[nodiscard]] double scaledOhm(const Branch& branch) const {
        double ohm = branch.ohm;
        for (const Member& member : branch.members)
            if (m_loop.contains(member.element))
                ohm += (m_netlist.settings.loop_scale - 1) *
                       elements()[static_cast<std::size_t>(member.element)].ohm;
        return ohm;
    }

    void addDevice(std::size_t index) {
        const Element& element = elements()[index];
        if (element.linear)
            return;
        const std::string name = "xd" + std::to_string(index);
        Probe& probe = m_netlist.probes[index];
        probe.from = wantNode(element.from);
        probe.to = wantNode(element.to);
        switch (element.kind) {
        case ElementKind::Battery:
            addBattery(element, name, probe);
            break;
        case ElementKind::Fuse:
            addFuse(element, name, probe);
            break;
        case ElementKind::Controller:
            addController(element, name, probe);
            break;
        case ElementKind::Thermostat:
        case ElementKind::Contact:
            addContact(element, name, probe);
            break;
        case ElementKind::Breaker:
            addBreaker(element, name, probe);
            break;
        case ElementKind::Charger:
        case ElementKind::Load:
            addSwitched(element, name, probe);
            break;
        case ElementKind::Meter:
            card(name,
                 nodeName(element.from) + " " + nodeName(element.to),
                 "joint",
                 parameter("ohm", element.ohm));
            probe.current = want("v." + name + ".vi#branch");
            break;
        case ElementKind::Joint:
            addContact(element, name, probe);
            break;
        case ElementKind::Conductor:
            EBBLINE_ASSERT(false, "conductors are linear");
        }
    }

    [[nodiscard]] const Part& partOf(const Element& element) const {
        const Part* part = m_netlist.network.installation.findPart(element.part);
        EBBLINE_ASSERT(part != nullptr, "a device stands for a part");
        return *part;
    }

    void addBattery(const Element& element, const std::string& name, Probe& probe) {
        const Part& part = partOf(element);
        const auto& battery = std::get<Battery>(part.body);
        std::map<std::string, double> instead =
            m_models.catalogues.chemistries.at(battery.chemistry);
        instead["temperature_c"] =
            battery.temperature_c.value_or(m_netlist.network.installation.surroundings.ambient_c);
        card(name,
             nodeName(element.to) + " " + nodeName(element.from),
             "battery",
             keyParameters(part, instead));
        probe.current = want("v." + name + ".vi#branch");
        probe.ohms = want("v(" + name + ".ohms)");
        probe.source_v = want("v(" + name + ".ocv)");
        probe.inside_v = {want("v(" + name + ".fast)"), want("v(" + name + ".slow)")};
    }

    void addFuse(const Element& element, const std::string& name, Probe& probe) {
        Part part = partOf(element);
        if (const auto* leads = std::get_if<BenchLeads>(&part.body))
            part.body = Fuse{.rating_a = leads->rating_a,
                             .holder_mohm = leads->holder_mohm,
                             .blown = leads->blown};
        const auto& fuse = std::get<Fuse>(part.body);
        std::map<std::string, double> instead = m_models.catalogues.fuse_styles.at(fuse.style);
        instead["resistance_mohm"] = element.ohm * 1e3 - fuse.holder_mohm;
        addProtection(element, name, "fuse", part, instead, probe);
    }

    void addBreaker(const Element& element, const std::string& name, Probe& probe) {
        addProtection(element, name, "breaker", partOf(element), {}, probe);
    }

    void addProtection(const Element& element,
                       const std::string& name,
                       const std::string& model,
                       const Part& part,
                       const std::map<std::string, double>& instead,
                       Probe& probe) {
        card(name,
             nodeName(element.from) + " " + nodeName(element.to),
             model,
             keyParameters(part, instead));
        probe.current = want("v." + name + ".vi#branch");
        probe.ohms = want("v(" + name + ".ohms)");
        probe.open = want("v(" + name + ".open)");
        m_netlist.job.causes.push_back({.state = probe.open,
                                        .rises = true,
                                        .by = want("v(" + name + ".find)"),
                                        .above = true});
    }

    /// A thermostat calls, if it does, from the scene's time 0 on. A joint that events take off
    /// does not open by itself as well.
    void addContact(const Element& element, const std::string& name, Probe& probe) {
        const bool is_thermostat = element.kind == ElementKind::Thermostat;
        const bool is_loose = element.closed && element.switchings.empty();
        std::vector<std::pair<double, bool>> steps =
            is_loose ? element.openings : element.switchings;
        if (is_thermostat && element.closed)
            steps.insert(steps.begin(), {0, true});
        card(name,
             nodeName(element.from) + " " + nodeName(element.to) + " " +
                 position(name, element.closed && !is_thermostat, std::move(steps)),
             element.film_ohm > 0 ? "film" : "contact",
             parameter("resistance_mohm",
                       std::max((element.ohm - element.film_ohm) * 1e3, smallest_contact_mohm)) +
                 (element.film_ohm > 0 ? parameter("film_mohm", element.film_ohm * 1e3) +
                                             parameter("film_v", element.film_v)
                                       : ""));
        probe.current = want("v." + name + ".vi#branch");
        probe.ohms = want("v(" + name + ".ohms)");
    }

    /// Loads and charging sources: their own model and a position, 1 while on.
    void addSwitched(const Element& element, const std::string& name, Probe& probe) {
        const Part& part = partOf(element);
        const std::string nodes = nodeName(element.from) + " " + nodeName(element.to) + " " +
                                  position(name, element.closed, element.switchings);
        const double on = element.closed ? 1 : 0;
        if (const auto* load = std::get_if<Load>(&part.body))
            card(name, nodes, "load_" + load->law, keyParameters(part, {{"on", on}}));
        else
            card(name, nodes, "charger", keyParameters(part, {{"on", on}}));
        probe.current = want("v." + name + ".vi#branch");
    }

    /// Node of a source that says whether something is closed; `steps` in scene time.
    std::string
    position(const std::string& device, bool closed, std::vector<std::pair<double, bool>> steps) {
        for (auto& [at_s, is_closed] : steps)
            at_s += m_netlist.lead_s;
        const std::string node = "p" + device.substr(2);
        m_text += stepSource(node, closed, steps);
        return node;
    }

    void addController(const Element& element, const std::string& name, Probe& probe) {
        const Part& part = partOf(element);
        const RunSettings& settings = m_netlist.settings;
        const auto& unit = std::get<Controller>(part.body);
        const double nominal_v =
            unit.nominal_v > 0 ? unit.nominal_v : m_netlist.network.installation.nominal_v;
        const bool is_subject = part.id == m_netlist.network.installation.subject;
        const std::string nodes =
            nodeName(element.from) + " " + nodeName(element.to) + " " + callNodes(part, name);
        card(name,
             nodes,
             "controller",
             keyParameters(part,
                           {{"on_24_v", nominal_v > 18 ? 1.0 : 0.0},
                            {"kept_off", installation::isKeptOff(unit) ? 1.0 : 0.0},
                            {"held_off", settings.held_off && is_subject ? 1.0 : 0.0},
                            {"mean_torque", hasMeanTorque(settings.accuracy) ? 1.0 : 0.0}}));
        probe.current = want("v." + name + ".vsupply#branch");
        if (!is_subject)
            return;
        m_netlist.unit = wantUnit(name);
        const auto causes = causesOf(m_netlist.unit, unit, nominal_v, settings.held_off);
        m_netlist.job.causes.insert(m_netlist.job.causes.end(), causes.begin(), causes.end());
    }

    UnitProbe wantUnit(const std::string& name) {
        const auto inside = [&](const char* node) { return want("v(" + name + "." + node + ")"); };
        return {.sensed_v = inside("sensed"),
                .motor_a = inside("motor"),
                .speed = inside("speed"),
                .pressure = inside("pressure"),
                .timer_s = inside("timer"),
                .good = inside("good"),
                .active = inside("active"),
                .waiting = inside("waiting"),
                .stall = inside("stall"),
                .calling_v = inside("calling")};
    }

    /// Nodes of the call terminals. Where nothing is wired to either, the unit is called from the
    /// scene's time 0 on.
    std::string callNodes(const Part& part, const std::string& name) {
        const auto call = m_netlist.network.findNode({part.id, "call"});
        const auto call_return = m_netlist.network.findNode({part.id, "call-return"});
        const std::string own = name.substr(2);
        if (!call && !call_return) {
            card("xc" + own,
                 "c" + own + " r" + own + " " + position(name, false, {{0, true}}),
                 "contact",
                 parameter("resistance_mohm", 1));
        }
        return (call ? nodeName(*call) : "c" + own) + " " +
               (call_return ? nodeName(*call_return) : "r" + own);
    }

    /// An island without the reference node would have no defined potential.
    void addLeaks() {
        std::set<int> grounded{m_netlist.network.islands[0]};
        for (std::size_t node = 1; node < m_netlist.network.nodes.size(); ++node)
            if (grounded.insert(m_netlist.network.islands[node]).second)
                m_text += "rleak" + std::to_string(node) + " " + nodeName(static_cast<int>(node)) +
                          " 0 1e12\n";
    }

    const Models& m_models;
    Netlist m_netlist;
    std::string m_text;
    std::map<std::string, int> m_wanted;
    std::set<std::string> m_used;
    std::set<int> m_loop; ///< elements of the supply loop
};

} // namespace

Netlist build(const Network& network, const Models& models, const RunSettings& settings) {
    return Builder(network, models, settings).build();
}

} // namespace ebbline::netlist
