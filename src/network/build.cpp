// SPDX-License-Identifier: MIT
// From the drawing to nodes and elements.
#include "ways.h"

#include "ebbline/error.h"
#include "ebbline/network.h"
#include "ebbline/text.h"

#include <algorithm>
#include <map>

namespace ebbline {

int Network::subject() const {
    for (std::size_t i = 0; i < elements.size(); ++i)
        if (elements[i].kind == ElementKind::Controller && elements[i].part == installation.subject)
            return static_cast<int>(i);
    EBBLINE_ASSERT(false, "a network holds the judged controller");
    return -1;
}

std::optional<int> Network::findNode(const Terminal& terminal) const {
    const auto place = std::ranges::find(nodes, terminal.text());
    return place == nodes.end() ? std::nullopt
                                : std::optional(static_cast<int>(place - nodes.begin()));
}

namespace network {
namespace {

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

/// Collects nodes and elements; one pass over parts, one over runs.
class Builder {
public:
    Builder(const Installation& installation, const Catalogues& catalogues)
        : m_installation(installation), m_catalogues(catalogues) {}

    Network build() {
        m_network.installation = m_installation;
        addReference();
        for (const Part& part : m_installation.parts)
            std::visit([&](const auto& body) { addPart(part, body); }, part.body);
        for (const Run& run : m_installation.runs)
            for (std::size_t core = 0; core < run.cores.size(); ++core)
                addCore(run, core);
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

    int terminalNode(const Terminal& terminal, const Terminal& end) {
        const Part* part = m_installation.findPart(terminal.part);
        if (part != nullptr && std::holds_alternative<BusBar>(part->body))
            return node({part->id, "1"});
        if (const auto lug = m_lugs.find(end); lug != m_lugs.end())
            return lug->second;
        return node(terminal);
    }

    void add(Element element) { m_network.elements.push_back(std::move(element)); }

    void addDevice(const Part& part, ElementKind kind, const char* from, const char* to) {
        add({.name = part.id,
             .kind = kind,
             .from = node({part.id, from}),
             .to = node({part.id, to}),
             .linear = false,
             .part = part.id});
    }

    void addPart(const Part& part, const Battery&) {
        addDevice(part, ElementKind::Battery, "minus", "plus");
    }
    void addPart(const Part& part, const Controller&) {
        addDevice(part, ElementKind::Controller, "plus", "minus");
    }
    void addPart(const Part& part, const Isolator& isolator) {
        addDevice(part, ElementKind::Contact, "line", "load");
        m_network.elements.back().ohm = isolator.resistance_mohm * 1e-3;
        m_network.elements.back().linear = isolator.closed && !isSwitchedLater(part.id);
    }
    void addPart(const Part& part, const Thermostat& thermostat) {
        addDevice(part, ElementKind::Thermostat, "line", "load");
        m_network.elements.back().ohm = thermostat.resistance_mohm * 1e-3;
    }
    void addPart(const Part& part, const Fuse& fuse) {
        addDevice(part, ElementKind::Fuse, "line", "load");
        m_network.elements.back().ohm = (fuse.holder_mohm + coldMohm(part.id, fuse)) * 1e-3;
    }
    void addPart(const Part& part, const BusBar&) { node({part.id, "1"}); }
    /// Lugs lie on one another from the post up, each with one contact face to the one below.
    void addPart(const Part& part, const Stud& stud) {
        int below = node({part.id, "post"});
        for (std::size_t i = 0; i < stud.stack.size(); ++i) {
            const std::string face = "face-" + std::to_string(i + 1);
            const int lug = node({part.id, face});
            m_lugs[stud.stack[i]] = lug;
            add({.name = part.id + "." + face,
                 .kind = ElementKind::Joint,
                 .from = below,
                 .to = lug,
                 .ohm = stud.face_mohm * 1e-3,
                 .part = part.id});
            below = lug;
        }
    }

    [[nodiscard]] bool isSwitchedLater(const std::string& id) const {
        return std::ranges::any_of(m_installation.events, [&](const Event& event) {
            return std::ranges::any_of(
                event.set, [&](const Change& change) { return change.path == id + ".closed"; });
        });
    }

    [[nodiscard]] double coldMohm(const std::string& id, const Fuse& fuse) const {
        if (fuse.resistance_mohm)
            return *fuse.resistance_mohm;
        const auto entry = m_catalogues.fuses.find(fuse.rating_a);
        if (entry == m_catalogues.fuses.end())
            refuse("fuse '" + id + "': no element of " + text::number(fuse.rating_a) +
                   " A in the catalogue; expected one of its ratings, or resistance_mohm");
        return entry->second;
    }

    [[nodiscard]] double jointOhm(const std::string& name, const Joint& joint) const {
        if (joint.resistance_mohm)
            return *joint.resistance_mohm * 1e-3;
        const auto kind = m_catalogues.joints.find(joint.kind);
        if (kind == m_catalogues.joints.end())
            refuse("joint '" + name + "': no kind '" + joint.kind + "' in the catalogue");
        const auto condition = kind->second.find(joint.condition);
        if (condition == kind->second.end())
            refuse("joint '" + name + "': no condition '" + joint.condition + "' of '" +
                   joint.kind + "' in the catalogue");
        return condition->second * 1e-3;
    }

    void addCore(const Run& run, std::size_t index) {
        const Core& core = run.cores[index];
        const std::string name = run.coreName(index);
        const auto mohm_per_m = conductorMohmPerM(core.size, core.conductor, m_catalogues);
        if (!mohm_per_m)
            refuse("run '" + name + "': no conductor '" + core.conductor + "' of size " +
                   text::number(core.size.value) + " in the catalogue");
        const std::string from_name = run.endName(index, "from");
        const std::string to_name = run.endName(index, "to");
        const int near = node(endTerminal(run, index, "from"));
        const int far = node(endTerminal(run, index, "to"));
        const int from = terminalNode(core.from, endTerminal(run, index, "from"));
        const int to = terminalNode(core.to, endTerminal(run, index, "to"));
        addJoint(from_name, run.id, core.joint_from, from, near);
        // Per metre of the laid pair; each of the two conductors takes half.
        add({.name = name,
             .kind = ElementKind::Conductor,
             .from = near,
             .to = far,
             .ohm = conductorOhm(*mohm_per_m, run.length(), m_installation.surroundings.ambient_c),
             .henry = run.inductance_uh * 1e-6 * run.length() / 2,
             .part = run.id});
        addJoint(to_name, run.id, core.joint_to, far, to);
    }

    void addJoint(
        const std::string& name, const std::string& run, const Joint& joint, int from, int to) {
        add({.name = name,
             .kind = ElementKind::Joint,
             .from = from,
             .to = to,
             .ohm = jointOhm(name, joint),
             .part = run});
    }

    static Terminal endTerminal(const Run& run, std::size_t core, std::string_view end) {
        const std::string whole = run.endName(core, end);
        return {run.id, whole.substr(run.id.size() + 1)};
    }

    const Installation& m_installation;
    const Catalogues& m_catalogues;
    Network m_network;
    std::map<Terminal, int> m_nodes;
    std::map<Terminal, int> m_lugs; ///< run end -> node of its lug in a stack
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
