// SPDX-License-Identifier: MIT
// All the questions of a survey in turn; what hangs together, what runs side by side.
#include "ebbline/survey.h"

#include "survey_steps.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <utility>

namespace ebbline {

std::string_view nameOf(OpenKind kind) {
    switch (kind) {
    case OpenKind::BareTerminal:
        return "bare terminal";
    case OpenKind::DeadEnd:
        return "dead end";
    case OpenKind::Joint:
        return "open joint";
    case OpenKind::Contact:
        return "open contact";
    case OpenKind::Plug:
        return "plug not mated";
    case OpenKind::Fuse:
        return "blown fuse";
    case OpenKind::Breaker:
        return "tripped breaker";
    }
    return "";
}

namespace network {
namespace {

std::vector<int> sourcesOf(const Network& network) {
    std::vector<int> sources = findElements(network, isSource);
    // Batteries first.
    std::ranges::sort(sources, {}, [&](int source) {
        return std::pair(at(network.elements, source).kind != ElementKind::Battery, source);
    });
    return sources;
}

/// Sets of nodes that grow together.
class Sets {
public:
    explicit Sets(std::size_t count) : m_above(count) {
        std::iota(m_above.begin(), m_above.end(), 0);
    }
    int find(int node) {
        while (at(m_above, node) != node)
            node = at(m_above, node) = at(m_above, at(m_above, node));
        return node;
    }
    void unite(int one, int other) { at(m_above, find(one)) = find(other); }

private:
    std::vector<int> m_above;
};

Sets joinAll(const Surveyed& surveyed) {
    Sets sets(surveyed.network.nodes.size());
    for (std::size_t i = 0; i < surveyed.network.elements.size(); ++i) {
        const Element& element = surveyed.network.elements[i];
        if (element.kind != ElementKind::Meter && !surveyed.open[i])
            sets.unite(element.from, element.to);
    }
    return sets;
}

/// Nodes of a block at which anything from outside it arrives.
std::vector<int> meetingNodes(const Surveyed& surveyed,
                              const std::vector<std::vector<int>>& elements_at,
                              int block) {
    std::set<int> nodes;
    for (const int member : at(surveyed.blocks.members(), block))
        for (const int node : {surveyed.element(member).from, surveyed.element(member).to})
            if (std::ranges::any_of(at(elements_at, node), [&](int other) {
                    return surveyed.blocks.blockOf(other) != block;
                }))
                nodes.insert(node);
    return {nodes.begin(), nodes.end()};
}

/// Elements by node, without meters and what is open.
std::vector<std::vector<int>> elementsByNode(const Surveyed& surveyed) {
    std::vector<std::vector<int>> elements(surveyed.network.nodes.size());
    for (std::size_t i = 0; i < surveyed.network.elements.size(); ++i) {
        const Element& element = surveyed.network.elements[i];
        if (element.kind != ElementKind::Meter && !surveyed.open[i])
            for (const int node : {element.from, element.to})
                at(elements, node).push_back(static_cast<int>(i));
    }
    return elements;
}

void findParallels(const Surveyed& surveyed, Survey& survey) {
    const auto elements_at = elementsByNode(surveyed);
    for (std::size_t i = 0; i < surveyed.blocks.members().size(); ++i)
        if (const int block = static_cast<int>(i); !surveyed.blocks.isSingle(block))
            survey.parallels.push_back(
                {surveyed.blocks.members()[i], meetingNodes(surveyed, elements_at, block)});
    std::ranges::sort(
        survey.parallels, {}, [](const ParallelWays& ways) { return ways.elements.front(); });
}

} // namespace

Surveyed::Surveyed(const Network& of)
    : network(of), open(findOpen(of)), wiring(of, Reading::AsItStands), blocks(wiring),
      sources(sourcesOf(of)), consumers(findElements(of, isConsumer)) {}

void findPieces(const Surveyed& surveyed, Survey& survey) {
    const Network& network = surveyed.network;
    Sets sets = joinAll(surveyed);
    std::map<int, std::size_t> island_of;
    for (int node = 0; node < static_cast<int>(network.nodes.size()); ++node) {
        const auto [place, is_new] = island_of.try_emplace(sets.find(node), survey.islands.size());
        if (is_new)
            survey.islands.emplace_back();
        survey.islands[place->second].nodes.push_back(node);
    }
    const int fridge = surveyed.element(network.subject()).from;
    survey.islands[island_of.at(sets.find(fridge))].holds_fridge = true;
    for (const int source : surveyed.sources)
        survey.islands[island_of.at(sets.find(surveyed.element(source).to))].holds_source = true;
    findParallels(surveyed, survey);
}

Survey survey(const Network& network) {
    const Surveyed surveyed(network);
    Survey survey;
    findPieces(surveyed, survey);
    findLoop(surveyed, survey);
    findDependence(surveyed, survey);
    findProtection(surveyed, survey);
    findOpenEnds(surveyed, survey);
    findPolarity(surveyed, survey);
    return survey;
}

} // namespace network
} // namespace ebbline
