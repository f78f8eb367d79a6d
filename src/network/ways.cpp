// SPDX-License-Identifier: MIT
// Islands and ways, by Boost.Graph.
#include "ways.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>

#include <algorithm>

namespace ebbline::network {
namespace {

struct Resistor {
    double ohm = 0;
    int element = 0;
};
using Graph = boost::
    adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, Resistor>;
using Vertex = boost::graph_traits<Graph>::vertex_descriptor;

bool isPassive(const Element& element) {
    switch (element.kind) {
    case ElementKind::Conductor:
    case ElementKind::Joint:
    case ElementKind::Contact:
    case ElementKind::Fuse:
    case ElementKind::Breaker:
        return true;
    default:
        return false;
    }
}

double ohmOf(const Network& network, const std::vector<Step>& way) {
    double ohm = 0;
    for (const Step& step : way)
        ohm += network.elements[static_cast<std::size_t>(step.element)].ohm;
    return ohm;
}

Graph makeGraph(const Network& network, bool passive_only) {
    Graph graph(network.nodes.size());
    for (std::size_t i = 0; i < network.elements.size(); ++i) {
        const Element& element = network.elements[i];
        if (!passive_only || isPassive(element))
            boost::add_edge(static_cast<Vertex>(element.from),
                            static_cast<Vertex>(element.to),
                            // Every element costs a little, so that a way never turns in circles.
                            Resistor{element.ohm + 1e-12, static_cast<int>(i)},
                            graph);
    }
    return graph;
}

/// Steps from `from` to `to` along the least resistance; nothing when there is no way.
std::optional<std::vector<Step>>
findWay(const Network& network, const Graph& graph, int from, int to) {
    std::vector<Vertex> before(boost::num_vertices(graph));
    std::vector<double> ohm(boost::num_vertices(graph));
    boost::dijkstra_shortest_paths(graph,
                                   static_cast<Vertex>(from),
                                   boost::weight_map(boost::get(&Resistor::ohm, graph))
                                       .predecessor_map(before.data())
                                       .distance_map(ohm.data()));
    std::vector<Step> way;
    for (auto at = static_cast<Vertex>(to); at != static_cast<Vertex>(from); at = before[at]) {
        if (before[at] == at)
            return std::nullopt;
        // Of parallel elements between two nodes the one of least resistance lies on the way.
        const Resistor* best = nullptr;
        for (auto [edge, end] = boost::out_edges(at, graph); edge != end; ++edge)
            if (boost::target(*edge, graph) == before[at] &&
                (best == nullptr || graph[*edge].ohm < best->ohm))
                best = &graph[*edge];
        const Element& element = network.elements[static_cast<std::size_t>(best->element)];
        way.push_back({best->element, element.to == static_cast<int>(at) ? +1 : -1});
    }
    std::ranges::reverse(way);
    return way;
}

} // namespace

std::vector<int> findIslands(const Network& network) {
    const Graph graph = makeGraph(network, false);
    std::vector<int> islands(boost::num_vertices(graph));
    // Colours of our own: the analyzer takes the shared ones of the default for freed memory.
    std::vector<boost::default_color_type> colours(boost::num_vertices(graph));
    boost::connected_components(graph, islands.data(), boost::color_map(colours.data()));
    return islands;
}

std::optional<SupplyLoop> findSupplyLoop(const Network& network) {
    const Graph graph = makeGraph(network, true);
    const int controller = network.subject();
    const Element& unit = network.elements[static_cast<std::size_t>(controller)];
    std::optional<SupplyLoop> best;
    double best_ohm = 0;
    for (const bool reversed : {false, true}) {
        for (std::size_t i = 0; i < network.elements.size(); ++i) {
            const Element& battery = network.elements[i];
            if (battery.kind != ElementKind::Battery)
                continue;
            const int plus = reversed ? unit.to : unit.from;
            const int minus = reversed ? unit.from : unit.to;
            const auto out = findWay(network, graph, battery.to, plus);
            const auto back = findWay(network, graph, minus, battery.from);
            if (!out || !back)
                continue;
            const double ohm = ohmOf(network, *out) + ohmOf(network, *back);
            if (!best || ohm < best_ohm) {
                best = SupplyLoop{static_cast<int>(i), controller, *out, *back, reversed};
                best_ohm = ohm;
            }
        }
        if (best)
            return best;
    }
    return std::nullopt;
}

} // namespace ebbline::network
