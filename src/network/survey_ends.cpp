// SPDX-License-Identifier: MIT
// Where the wiring stops: bare terminals, dead ends, and what is open.
#include "survey_steps.h"

#include <algorithm>
#include <map>

namespace ebbline::network {
namespace {

/// Parts by id, and which elements arrive at each node whether open or not.
class Ends {
public:
    explicit Ends(const Surveyed& surveyed)
        : m_surveyed(surveyed), m_elements_at(surveyed.network.nodes.size()) {
        for (const Part& part : surveyed.network.installation.parts)
            m_parts[part.id] = &part;
        for (const Element& element : surveyed.network.elements)
            if (element.kind != ElementKind::Meter)
                for (const int node : {element.from, element.to})
                    at(m_elements_at, node).push_back(&element);
    }

    std::vector<OpenEnd> find() {
        for (std::size_t node = 0; node < m_elements_at.size(); ++node)
            addNode(node);
        for (std::size_t i = 0; i < m_surveyed.open.size(); ++i)
            if (m_surveyed.open[i]) {
                const Element& element = m_surveyed.network.elements[i];
                m_found.push_back({kindOfOpen(element), element.name});
            }
        return std::move(m_found);
    }

private:
    void addNode(std::size_t node) {
        const auto& elements = m_elements_at[node];
        const std::string& name = m_surveyed.network.nodes[node];
        const std::string owner = name.substr(0, name.find('.'));
        if (elements.size() > 1 || goesOnInside(name, owner))
            return;
        const bool is_bare = elements.empty() || elements.front()->part == owner;
        const Part* part = findPart(owner);
        const bool is_bar = part != nullptr && std::holds_alternative<BusBar>(part->body);
        m_found.push_back({is_bare ? OpenKind::BareTerminal : OpenKind::DeadEnd,
                           is_bar ? owner : name}); // all studs of a bar are one node
    }

    /// Where a single arrival is nothing to speak of.
    [[nodiscard]] bool goesOnInside(const std::string& name, const std::string& owner) const {
        const Part* part = findPart(owner);
        if (part == nullptr)
            return false;
        if (std::holds_alternative<Panel>(part->body))
            return name != owner + ".feed"; // spare ways of a panel
        if (const auto* stud = std::get_if<Stud>(&part->body))
            return name == owner + ".post" && stud->stack.size() > 1; // all on the lowest lug
        if (std::holds_alternative<Controller>(part->body)) // its inside is not in the graph
            return name != owner + ".plus" && name != owner + ".minus";
        return false;
    }

    [[nodiscard]] OpenKind kindOfOpen(const Element& element) const {
        if (element.kind == ElementKind::Fuse)
            return OpenKind::Fuse;
        if (element.kind == ElementKind::Breaker)
            return OpenKind::Breaker;
        if (element.kind == ElementKind::Joint)
            return OpenKind::Joint;
        const Part* part = findPart(element.part);
        if (part == nullptr) // a joint that opens is a contact too, but belongs to a run
            return m_surveyed.network.installation.findRun(element.part) != nullptr
                       ? OpenKind::Joint
                       : OpenKind::Contact;
        if (const auto* plug = std::get_if<Plug>(&part->body))
            return plug->mated ? OpenKind::Joint : OpenKind::Plug;
        return std::holds_alternative<Bond>(part->body) ||
                       std::holds_alternative<Splice>(part->body)
                   ? OpenKind::Joint
                   : OpenKind::Contact;
    }

    [[nodiscard]] const Part* findPart(const std::string& id) const {
        const auto place = m_parts.find(id);
        return place == m_parts.end() ? nullptr : place->second;
    }

    const Surveyed& m_surveyed;
    std::map<std::string, const Part*> m_parts;
    std::vector<std::vector<const Element*>> m_elements_at;
    std::vector<OpenEnd> m_found;
};

} // namespace

void findOpenEnds(const Surveyed& surveyed, Survey& survey) {
    survey.open_ends = Ends(surveyed).find();
}

} // namespace ebbline::network
