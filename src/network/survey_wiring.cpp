// SPDX-License-Identifier: MIT
// The ways of a network as an undirected graph; two nodes may be joined more than once.
#include "survey_wiring.h"

#include <algorithm>
#include <set>

namespace ebbline::network {
namespace {

bool isParted(const Body& body) {
    if (const auto* fuse = std::get_if<Fuse>(&body))
        return fuse->blown;
    if (const auto* breaker = std::get_if<Breaker>(&body))
        return breaker->tripped;
    const auto* leads = std::get_if<BenchLeads>(&body);
    return leads != nullptr && leads->blown;
}

std::set<std::string> partedIds(const Installation& installation) {
    std::set<std::string> ids;
    for (const Part& part : installation.parts)
        if (isParted(part.body))
            ids.insert(part.id);
    return ids;
}

bool closesLater(const Element& element) {
    return std::ranges::any_of(element.switchings,
                               [](const auto& switching) { return switching.second; });
}

} // namespace

bool isSource(ElementKind kind) {
    return kind == ElementKind::Battery || kind == ElementKind::Charger;
}

bool isConsumer(ElementKind kind) {
    return kind == ElementKind::Controller || kind == ElementKind::Load;
}

bool isWay(ElementKind kind) {
    return !isSource(kind) && !isConsumer(kind) && kind != ElementKind::Meter;
}

bool isFuse(ElementKind kind) {
    return kind == ElementKind::Fuse || kind == ElementKind::Breaker;
}

int plusOf(const Element& element) {
    return isSource(element.kind) ? element.to : element.from;
}

int minusOf(const Element& element) {
    return isSource(element.kind) ? element.from : element.to;
}

std::vector<bool> findOpen(const Network& network) {
    const std::set<std::string> parted = partedIds(network.installation);
    std::vector<bool> open;
    for (const Element& element : network.elements) {
        // A thermostat opens and closes by itself.
        const bool can_be = isWay(element.kind) && element.kind != ElementKind::Thermostat;
        const bool is_parted = isFuse(element.kind) && parted.contains(element.part);
        open.push_back(can_be && (!element.closed || is_parted) && !closesLater(element));
    }
    return open;
}

std::vector<int> findElements(const Network& network, bool (*is)(ElementKind)) {
    std::vector<int> found;
    for (std::size_t i = 0; i < network.elements.size(); ++i)
        if (is(network.elements[i].kind))
            found.push_back(static_cast<int>(i));
    return found;
}

Wiring::Wiring(const Network& network, Reading reading)
    : m_elements(static_cast<int>(network.elements.size())), m_hops(network.nodes.size()) {
    const std::vector<bool> open = findOpen(network);
    for (int i = 0; i < m_elements; ++i) {
        const Element& element = at(network.elements, i);
        if (isWay(element.kind) && (reading == Reading::AsDrawn || !at(open, i)))
            join(i, element.from, element.to);
    }
}

int Wiring::addHub(std::span<const int> nodes) {
    const int hub = this->nodes();
    m_hops.emplace_back();
    for (const int node : nodes)
        join(m_elements++, hub, node);
    return hub;
}

void Wiring::join(int element, int from, int to) {
    at(m_hops, from).push_back({element, to});
    at(m_hops, to).push_back({element, from});
}

} // namespace ebbline::network
