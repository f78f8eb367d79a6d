// SPDX-License-Identifier: MIT
// The supply loop, what breaks it, what it hangs on, and who else uses it.
#include "survey_steps.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <queue>
#include <utility>

namespace ebbline::network {
namespace {

/// Ways of least resistance from every node to one (Dijkstra, 1959).
class LeastWays {
public:
    LeastWays(const Network& network, const Wiring& wiring, int to)
        : m_network(network), m_ohm(network.nodes.size(), std::numeric_limits<double>::infinity()),
          m_next(network.nodes.size()) {
        at(m_ohm, to) = 0;
        m_queue.emplace(0, to);
        while (!m_queue.empty()) {
            const auto [ohm, node] = m_queue.top();
            m_queue.pop();
            if (ohm == at(m_ohm, node))
                for (const Hop& hop : wiring.hopsAt(node))
                    reach(hop, node);
        }
    }

    /// Infinite where no way leads.
    [[nodiscard]] double ohm(int node) const { return at(m_ohm, node); }

    [[nodiscard]] std::vector<Step> from(int node) const {
        std::vector<Step> way;
        while (at(m_ohm, node) > 0) {
            const Hop& hop = at(m_next, node);
            const bool forward = at(m_network.elements, hop.element).from == node;
            way.push_back({hop.element, forward ? +1 : -1});
            node = hop.node;
        }
        return way;
    }

private:
    void reach(const Hop& hop, int from) {
        // Every element costs a little, so that a way never turns in circles.
        const double ohm = at(m_ohm, from) + at(m_network.elements, hop.element).ohm + 1e-12;
        if (ohm >= at(m_ohm, hop.node))
            return;
        at(m_ohm, hop.node) = ohm;
        at(m_next, hop.node) = {hop.element, from};
        m_queue.emplace(ohm, hop.node);
    }

    using Place = std::pair<double, int>;
    const Network& m_network;
    std::vector<double> m_ohm;
    std::vector<Hop> m_next; ///< from a node towards the one all ways lead to
    std::priority_queue<Place, std::vector<Place>, std::greater<>> m_queue;
};

std::vector<Step> turned(std::vector<Step> way) {
    std::ranges::reverse(way);
    for (Step& step : way)
        step.sign = -step.sign;
    return way;
}

/// The supplying source of least resistance; chargers only where there is no battery.
std::optional<int>
findNearest(const Surveyed& surveyed, const LeastWays& feed, const LeastWays& ground) {
    std::optional<int> best;
    double best_ohm = 0;
    for (const int source : surveyed.sources) {
        const Element& battery = surveyed.element(source);
        if (best && battery.kind != surveyed.element(*best).kind)
            break;
        const double ohm = feed.ohm(plusOf(battery)) + ground.ohm(minusOf(battery));
        if (std::isfinite(ohm) && (!best || ohm < best_ohm)) {
            best = source;
            best_ohm = ohm;
        }
    }
    return best;
}

std::optional<SupplyLoop> findLoopIn(const Surveyed& surveyed, const Wiring& wiring) {
    const int controller = surveyed.network.subject();
    const Element& unit = surveyed.element(controller);
    const LeastWays to_plus(surveyed.network, wiring, plusOf(unit));
    const LeastWays to_minus(surveyed.network, wiring, minusOf(unit));
    for (const bool reversed : {false, true}) {
        const LeastWays& feed = reversed ? to_minus : to_plus;
        const LeastWays& ground = reversed ? to_plus : to_minus;
        if (const auto source = findNearest(surveyed, feed, ground)) {
            const Element& battery = surveyed.element(*source);
            return SupplyLoop{*source,
                              controller,
                              feed.from(plusOf(battery)),
                              turned(ground.from(minusOf(battery))),
                              reversed};
        }
    }
    return std::nullopt;
}

std::vector<int> openOn(const Surveyed& surveyed, const SupplyLoop& loop) {
    std::vector<int> found;
    for (const auto* way : {&loop.out, &loop.back})
        for (const Step& step : *way)
            if (at(surveyed.open, step.element))
                found.push_back(step.element);
    return found;
}

/// The two nodes at which a loop arrives: where plus comes in and where it goes back.
std::pair<int, int> postsOf(const Surveyed& surveyed, const SupplyLoop& loop) {
    const Element& unit = surveyed.element(loop.controller);
    std::pair posts(plusOf(unit), minusOf(unit));
    if (loop.reversed)
        std::swap(posts.first, posts.second);
    return posts;
}

bool supplies(const Surveyed& surveyed, int source, const std::pair<int, int>& posts) {
    const Element& battery = surveyed.element(source);
    return surveyed.blocks.areJoined(plusOf(battery), posts.first) &&
           surveyed.blocks.areJoined(minusOf(battery), posts.second);
}

/// The blocks between a source's posts and those it supplies, each once.
std::vector<int>
blocksFrom(const Surveyed& surveyed, int source, const std::pair<int, int>& posts) {
    const Element& battery = surveyed.element(source);
    std::vector<int> row = surveyed.blocks.findBetween(plusOf(battery), posts.first);
    const std::vector<int> back = surveyed.blocks.findBetween(minusOf(battery), posts.second);
    row.insert(row.end(), back.begin(), back.end());
    std::ranges::sort(row);
    const auto repeated = std::ranges::unique(row);
    row.erase(repeated.begin(), repeated.end());
    return row;
}

/// Elements that no source can do without: the source itself if it is the only one, and what has
/// no way around it.
std::vector<int> findBridges(const Surveyed& surveyed, const SupplyLoop& loop) {
    const auto posts = postsOf(surveyed, loop);
    int supplying = 0;
    std::vector<int> uses(surveyed.network.elements.size(), 0);
    for (const int source : surveyed.sources) {
        if (!supplies(surveyed, source, posts))
            continue;
        ++supplying;
        ++at(uses, source);
        for (const int block : blocksFrom(surveyed, source, posts))
            if (surveyed.blocks.isSingle(block))
                ++at(uses, at(surveyed.blocks.members(), block).front());
    }
    std::vector<int> bridges;
    for (std::size_t i = 0; i < uses.size(); ++i)
        if (uses[i] == supplying)
            bridges.push_back(static_cast<int>(i));
    return bridges;
}

std::vector<int>
markedOf(const std::vector<Step>& way, const Surveyed& surveyed, const std::vector<bool>& marked) {
    std::vector<int> found;
    for (const Step& step : way)
        if (at(marked, surveyed.blocks.blockOf(step.element)))
            found.push_back(step.element);
    return found;
}

/// Blocks through which some source's current to a consumer may flow.
std::vector<bool> blocksTo(const Surveyed& surveyed, int consumer) {
    const Element& unit = surveyed.element(consumer);
    std::vector<bool> marked(surveyed.blocks.members().size(), false);
    const std::pair posts(plusOf(unit), minusOf(unit));
    for (const int source : surveyed.sources)
        if (supplies(surveyed, source, posts))
            for (const int block : blocksFrom(surveyed, source, posts))
                at(marked, block) = true;
    return marked;
}

} // namespace

void findLoop(const Surveyed& surveyed, Survey& survey) {
    survey.loop = findLoopIn(surveyed, surveyed.wiring);
    if (survey.loop)
        return;
    const Wiring drawn(surveyed.network, Reading::AsDrawn);
    if (const auto loop = findLoopIn(surveyed, drawn))
        survey.interruptions = openOn(surveyed, *loop);
}

void findDependence(const Surveyed& surveyed, Survey& survey) {
    if (!survey.loop)
        return;
    survey.bridges = findBridges(surveyed, *survey.loop);
    for (const int consumer : surveyed.consumers) {
        if (consumer == survey.loop->controller)
            continue;
        const std::vector<bool> marked = blocksTo(surveyed, consumer);
        Sharing sharing{consumer,
                        markedOf(survey.loop->out, surveyed, marked),
                        markedOf(survey.loop->back, surveyed, marked)};
        if (!sharing.out.empty() || !sharing.back.empty())
            survey.sharings.push_back(std::move(sharing));
    }
}

} // namespace ebbline::network
