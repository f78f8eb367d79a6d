// SPDX-License-Identifier: MIT
// From the drawing to nodes and elements.
#include "ohms.h"
#include "openings.h"
#include "ways.h"

#include "ebbline/error.h"
#include "ebbline/network.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace ebbline {

int Network::subject() const {
    for (std::size_t i = 0; i < elements.size(); ++i)
        if (elements[i].kind == ElementKind::Controller && elements[i].part == installation.subject)
            return static_cast<int>(i);
    EBBLINE_ASSERT(false, "a network holds the judged controller");
    return -1;
}

std::optional<int> Network::findNode(const Terminal& terminal) const {
    const Part* part = installation.findPart(terminal.part);
    const bool is_stud = part != nullptr && std::holds_alternative<BusBar>(part->body);
    const Terminal first = is_stud ? Terminal{terminal.part, "1"} : terminal;
    const auto place = std::ranges::find(nodes, first.text());
    return place == nodes.end() ? std::nullopt
                                : std::optional(static_cast<int>(place - nodes.begin()));
}

namespace network {
namespace {

// models/README.md, Breaker.
constexpr double breaker_parting_times = 1.15;

/// Collects nodes and elements; one pass over parts, one over runs.
class Builder {
public:
    Builder(const Installation& installation, const Catalogues& catalogues)
        : m_installation(installation), m_ohms(catalogues) {}

    Network build() {
        m_network.installation = m_installation;
        addReference();
        for (const Part& part : m_installation.parts)
            if (std::holds_alternative<BusBar>(part.body))
                m_bars.insert(part.id);
        for (const Run& run : m_installation.runs)
            for (const Core& core : run.cores)
                m_used.insert({core.from, core.to});
        // Elements are large: to move thousands of them to and fro takes longer than to make them.
        constexpr std::size_t elements_of_a_core = 3;
        m_network.elements.reserve(m_installation.parts.size() +
                                   elements_of_a_core * m_used.size());
        for (const Part& part : m_installation.parts)
            std::visit([&](const auto& body) { addPart(part, body); }, part.body);
        for (const Run& run : m_installation.runs)
            for (std::size_t core = 0; core < run.cores.size(); ++core)
                addCore(run, core);
        for (const Part& part : m_installation.parts) // on what all others have made
            if (const auto* meter = std::get_if<Meter>(&part.body))
                addMeter(part, *meter);
        return std::move(m_network);
    }

private:
    /// The minus post of the first battery is what all voltages are measured against.
    void addReference() {
        for (const Part& part : m_installation.parts)
            if (std::holds_alternative<Battery>(part.body)) {
                node({part.id, "minus"});
                return;
            }
        node({m_installation.subject, "minus"});
    }

    int node(const Terminal& terminal) {
        const auto [place, is_new] =
            m_nodes.try_emplace(terminal, static_cast<int>(m_network.nodes.size()));
        if (is_new)
            m_network.nodes.push_back(terminal.text());
        return place->second;
    }

    /// All studs of a bus bar are one node.
    int terminalNode(const Terminal& terminal) {
        return node(m_bars.contains(terminal.part) ? Terminal{terminal.part, "1"} : terminal);
    }

    /// Where a run's end arrives: its own lug of a stack, or the terminal.
    int arrival(const Terminal& terminal, const Terminal& end) {
        const auto lug = m_lugs.find(end);
        return lug != m_lugs.end() ? lug->second : terminalNode(terminal);
    }

    Element& add(Element element) {
        m_network.elements.push_back(std::move(element));
        return m_network.elements.back();
    }

    Element& addDevice(const Part& part, ElementKind kind, const char* from, const char* to) {
        return add({.name = part.id,
                    .kind = kind,
                    .from = node({part.id, from}),
                    .to = node({part.id, to}),
                    .linear = false,
                    .part = part.id});
    }

    Element&
    addJoint(const std::string& name, const std::string& owner, double ohm, int from, int to) {
        return add({.name = name,
                    .kind = ElementKind::Joint,
                    .from = from,
                    .to = to,
                    .ohm = ohm,
                    .part = owner});
    }

    /// A joint or switch that stays as it is stays a resistance; any other becomes a contact.
    void settle(Element& element, bool closed, const std::vector<std::string>& paths) const {
        element.closed = closed;
        element.switchings = switchings(paths);
        if (closed && element.switchings.empty() && element.openings.empty())
            return;
        element.kind = ElementKind::Contact;
        element.linear = false;
    }

    void addPart(const Part& part, const Battery&) {
        addDevice(part, ElementKind::Battery, "minus", "plus");
    }
    void addPart(const Part& part, const Charger& charger) {
        Element& element = addDevice(part, ElementKind::Charger, "minus", "plus");
        element.closed = charger.on;
        element.switchings = switchings({part.id + ".on"});
    }
    void addPart(const Part& part, const Load& load) {
        Element& element = addDevice(part, ElementKind::Load, "plus", "minus");
        element.closed = load.on;
        element.switchings = switchings({part.id + ".on"});
    }
    void addPart(const Part& part, const Controller&) {
        addDevice(part, ElementKind::Controller, "plus", "minus");
    }
    void addPart(const Part& part, const Isolator& isolator) {
        Element& element = addDevice(part, ElementKind::Contact, "line", "load");
        element.ohm = isolator.resistance_mohm * 1e-3;
        element.linear = true;
        settle(element, isolator.closed, {part.id + ".closed"});
    }
    void addPart(const Part& part, const Thermostat& thermostat) {
        Element& element = addDevice(part, ElementKind::Thermostat, "line", "load");
        element.ohm = thermostat.resistance_mohm * 1e-3;
        element.closed = thermostat.closed;
        element.switchings = switchings({part.id + ".closed"});
    }
    void addPart(const Part& part, const Fuse& fuse) {
        m_ohms.setFuse(addDevice(part, ElementKind::Fuse, "line", "load"), fuse);
    }
    void addPart(const Part& part, const Breaker& breaker) {
        Element& element = addDevice(part, ElementKind::Breaker, "line", "load");
        element.ohm = breaker.resistance_mohm * 1e-3;
        element.parts_a = breaker_parting_times * breaker.rating_a;
    }
    void addPart(const Part& part, const BusBar&) { node({part.id, "1"}); }
    void addPart(const Part& part, const Chassis&) { node({part.id, "metal"}); }
    void addPart(const Part&, const Meter&) {} // the last of all
    /// Lugs lie on one another from the post up, each with one contact face to the one below.
    void addPart(const Part& part, const Stud& stud) {
        int below = node({part.id, "post"});
        for (std::size_t i = 0; i < stud.stack.size(); ++i) {
            const std::string face = "face-" + std::to_string(i + 1);
            const int lug = node({part.id, face});
            m_lugs[stud.stack[i]] = lug;
            addJoint(part.id + "." + face, part.id, stud.face_mohm * 1e-3, below, lug);
            below = lug;
        }
    }
    void addPart(const Part& part, const Splice& splice) {
        addOwnJoint(
            part, "sleeve", splice.sleeve, node({part.id, "line"}), node({part.id, "load"}));
    }
    void addPart(const Part& part, const Plug& plug) {
        for (const auto& [pole, joint] :
             {std::pair("plus", plug.plus), std::pair("minus", plug.minus)}) {
            const std::string name(pole);
            addContactPair(part.id + "." + name,
                           part.id,
                           joint,
                           {node({part.id, "in-" + name}), node({part.id, "out-" + name})},
                           plug.mated,
                           {part.id + ".mated"});
        }
    }
    /// Switches that nothing is wired to are left out.
    void addPart(const Part& part, const Panel& panel) {
        const int rail = node({part.id, "rail"});
        addJoint(part.id + ".rail", part.id, panel.rail_mohm * 1e-3, node({part.id, "feed"}), rail);
        for (std::size_t i = 0; i < panel.ways.size(); ++i) {
            const std::string way = std::to_string(i + 1);
            if (!m_used.contains({part.id, way}))
                continue;
            Element& element = add({.name = part.id + "." + way,
                                    .kind = ElementKind::Contact,
                                    .from = rail,
                                    .to = node({part.id, way}),
                                    .ohm = panel.ways[i].resistance_mohm * 1e-3,
                                    .part = part.id});
            settle(element, panel.ways[i].closed, {part.id + ".closed", element.name + ".closed"});
        }
    }
    /// Through the lug, then from the lug into the metal.
    void addPart(const Part& part, const Bond& bond) {
        const int washer = node({part.id, "washer"});
        addOwnJoint(part, "lug", bond.lug, node({part.id, "lug"}), washer);
        const auto& chassis = std::get<Chassis>(m_installation.findPart(bond.to)->body);
        addJoint(part.id + ".metal",
                 part.id,
                 m_ohms.spread(bond.to, chassis),
                 washer,
                 node({bond.to, "metal"}));
    }
    /// Clip, fuse and lead on the plus side; clip and lead on the minus side; a clip at each end.
    void addPart(const Part& part, const BenchLeads& leads) {
        const auto inner = [&](const char* name) { return node({part.id, name}); };
        addClip(part, leads, "from-plus", inner("tail"));
        m_ohms.setFuse(add({.name = part.id + ".fuse",
                            .kind = ElementKind::Fuse,
                            .from = inner("tail"),
                            .to = inner("plus"),
                            .linear = false,
                            .part = part.id}),
                       {.rating_a = leads.rating_a, .holder_mohm = leads.holder_mohm});
        addLead(part, leads, "plus", inner("plus"), inner("plus-end"));
        addClip(part, leads, "to-plus", inner("plus-end"));
        addClip(part, leads, "from-minus", inner("minus"));
        addLead(part, leads, "minus", inner("minus"), inner("minus-end"));
        addClip(part, leads, "to-minus", inner("minus-end"));
    }

    void addClip(const Part& part, const BenchLeads& leads, const char* terminal, int lead) {
        addJoint(part.id + "." + terminal,
                 part.id,
                 leads.clip_mohm * 1e-3,
                 node({part.id, terminal}),
                 lead);
    }

    void addLead(const Part& part, const BenchLeads& leads, const char* name, int from, int to) {
        addConductor({.name = part.id + "." + name, .from = from, .to = to, .part = part.id},
                     {SizeScale::Mm2, leads.area_mm2},
                     BenchLeads::conductor,
                     Run{.id = part.id, .length_m = leads.length_m});
    }

    void addMeter(const Part& part, const Meter& meter) {
        add({.name = part.id,
             .kind = ElementKind::Meter,
             .from = terminalNode(meter.plus),
             .to = terminalNode(meter.minus),
             .ohm = meter.resistance_mohm * 1e-3,
             .linear = false,
             .part = part.id});
    }

    void addOwnJoint(const Part& part, const char* name, const Joint& joint, int from, int to) {
        addNamedJoint(part.id + "." + name, part.id, joint, from, to);
    }

    void addNamedJoint(
        const std::string& name, const std::string& owner, const Joint& joint, int from, int to) {
        addContactPair(name, owner, joint, {from, to}, true, {});
    }

    /// `mated` and `paths`: of what holds the joint closed beside itself.
    void addContactPair(const std::string& name,
                        const std::string& owner,
                        const Joint& joint,
                        std::pair<int, int> nodes,
                        bool mated,
                        std::vector<std::string> paths) {
        Element& element =
            addJoint(name, owner, m_ohms.joint(name, joint), nodes.first, nodes.second);
        element.film_ohm = joint.film_mohm * 1e-3;
        element.film_v = joint.film_v;
        element.ohm += element.film_ohm;
        element.linear = element.film_ohm == 0;
        element.openings = openingsOf(joint);
        paths.push_back(name + ".connected");
        paths.emplace_back("joints.connected");
        settle(element, mated && joint.connected, paths);
    }

    void addCore(const Run& run, std::size_t index) {
        const Core& core = run.cores[index];
        const Terminal from_end = endTerminal(run, index, "from");
        const Terminal to_end = endTerminal(run, index, "to");
        const int near = node(from_end);
        const int far = node(to_end);
        addNamedJoint(from_end.text(), run.id, core.joint_from, arrival(core.from, from_end), near);
        addConductor({.name = run.coreName(index), .from = near, .to = far, .part = run.id},
                     core.size,
                     core.conductor,
                     run);
        addNamedJoint(to_end.text(), run.id, core.joint_to, far, arrival(core.to, to_end));
    }

    void
    addConductor(Element element, const Size& size, const std::string& conductor, const Run& run) {
        element.kind = ElementKind::Conductor;
        const double celsius = run.ambient_c.value_or(m_installation.surroundings.ambient_c);
        const double whole_strands = 1 - run.broken_pct / 100;
        element.ohm =
            m_ohms.conductor(element.name, size, conductor, run.length(), celsius) / whole_strands;
        element.area_mm2 = areaOf(size);
        element.henry = inductancePerM(run, element.area_mm2) * run.length();
        add(std::move(element));
    }

    /// When the events switch something that answers to any of the paths.
    [[nodiscard]] std::vector<std::pair<double, bool>>
    switchings(const std::vector<std::string>& paths) const {
        std::vector<std::pair<double, bool>> steps;
        for (const Event& event : m_installation.events)
            for (const Set& change : event.set)
                if (std::ranges::find(paths, change.path) != paths.end())
                    steps.emplace_back(event.at_s, std::get<bool>(change.value));
        return steps;
    }

    static Terminal endTerminal(const Run& run, std::size_t core, std::string_view end) {
        const std::string whole = run.endName(core, end);
        return {run.id, whole.substr(run.id.size() + 1)};
    }

    const Installation& m_installation;
    Ohms m_ohms;
    Network m_network;
    std::map<Terminal, int> m_nodes;
    std::map<Terminal, int> m_lugs; ///< run end -> node of its lug in a stack
    std::set<std::string> m_bars;   ///< ids of bus bars
    std::set<Terminal> m_used;      ///< terminals that a run ends at
};

void addBranches(Network& network) {
    for (std::size_t i = 0; i < network.elements.size(); ++i) {
        const Element& element = network.elements[i];
        if (element.linear)
            network.branches.push_back({.from = element.from,
                                        .to = element.to,
                                        .ohm = element.ohm,
                                        .henry = element.henry,
                                        .members = {{static_cast<int>(i), +1}}});
    }
}

} // namespace

Network build(const Installation& installation, const Catalogues& catalogues) {
    Network network = Builder(installation, catalogues).build();
    addBranches(network);
    network.islands = findIslands(network);
    network.loop = findSupplyLoop(network);
    return network;
}

double loopOhm(const Network& network) {
    double ohm = 0;
    if (network.loop)
        for (const auto& way : {network.loop->out, network.loop->back})
            for (const Step& step : way)
                ohm += network.elements[static_cast<std::size_t>(step.element)].ohm;
    return ohm;
}

} // namespace network
} // namespace ebbline
