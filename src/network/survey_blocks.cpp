// SPDX-License-Identifier: MIT
// Blocks by one depth-first search (Hopcroft and Tarjan, 1973), without recursion.
#include "survey_blocks.h"

#include <algorithm>

namespace ebbline::network {

/// The search. A library's own was not used because it loses the second of two parallel elements.
class BlockSearch {
public:
    BlockSearch(const Wiring& wiring, Blocks& blocks)
        : m_wiring(wiring), m_blocks(blocks),
          m_number(static_cast<std::size_t>(wiring.nodes()), -1), m_lowest(m_number),
          m_child(static_cast<std::size_t>(wiring.elements()), -1) {}

    void visit(int root) {
        if (at(m_number, root) >= 0)
            return;
        enter(root, -1, root);
        while (!m_trail.empty())
            if (const Hop* hop = nextHop())
                follow(*hop, root);
            else
                leave();
    }

private:
    struct Place {
        int node = 0;
        int via = 0; ///< element by which it was entered
        std::size_t next = 0;
    };

    void enter(int node, int via, int root) {
        at(m_number, node) = at(m_lowest, node) = static_cast<int>(m_blocks.m_order.size());
        m_blocks.m_order.push_back(node);
        at(m_blocks.m_root, node) = root;
        m_trail.push_back({node, via});
    }

    const Hop* nextHop() {
        Place& place = m_trail.back();
        const auto hops = m_wiring.hopsAt(place.node);
        return place.next < hops.size() ? &hops[place.next++] : nullptr;
    }

    void follow(const Hop& hop, int root) {
        const Place& here = m_trail.back();
        if (hop.element == here.via || hop.node == here.node)
            return;
        if (at(m_number, hop.node) < 0) {
            m_open.push_back(hop.element);
            at(m_child, hop.element) = hop.node;
            enter(hop.node, hop.element, root);
        } else if (at(m_number, hop.node) < at(m_number, here.node)) {
            m_open.push_back(hop.element);
            lower(here.node, at(m_number, hop.node));
        }
    }

    void leave() {
        const Place done = m_trail.back();
        m_trail.pop_back();
        if (m_trail.empty())
            return;
        const int before = m_trail.back().node;
        lower(before, at(m_lowest, done.node));
        if (at(m_lowest, done.node) >= at(m_number, before))
            closeBlock(before, done.via);
    }

    void lower(int node, int number) { at(m_lowest, node) = std::min(at(m_lowest, node), number); }

    /// Everything found since `first` was entered is one block that hangs on `head`.
    void closeBlock(int head, int first) {
        const int block = static_cast<int>(m_blocks.m_members.size());
        std::vector<int> members;
        do {
            const int element = m_open.back();
            m_open.pop_back();
            members.push_back(element);
            at(m_blocks.m_block_of, element) = block;
            if (const int child = at(m_child, element); child >= 0)
                at(m_blocks.m_above, child) = block;
        } while (members.back() != first);
        std::ranges::sort(members);
        m_blocks.m_members.push_back(std::move(members));
        m_blocks.m_head.push_back(head);
    }

    const Wiring& m_wiring;
    Blocks& m_blocks;
    std::vector<int> m_number; ///< of a node, in the order of entering; -1: not entered
    std::vector<int> m_lowest; ///< number that is reached from below a node
    std::vector<int> m_child;  ///< node that was entered by an element; -1: none
    std::vector<Place> m_trail;
    std::vector<int> m_open; ///< elements that are in no block yet
};

Blocks::Blocks(const Wiring& wiring, int root)
    : m_block_of(static_cast<std::size_t>(wiring.elements()), -1),
      m_above(static_cast<std::size_t>(wiring.nodes()), -1), m_root(m_above),
      m_depth(static_cast<std::size_t>(wiring.nodes()), 0) {
    BlockSearch search(wiring, *this);
    search.visit(root);
    for (int node = 0; node < wiring.nodes(); ++node)
        search.visit(node);
    for (const int node : m_order)
        if (const int block = blockAbove(node); block >= 0)
            at(m_depth, node) = at(m_depth, headOf(block)) + 1;
}

std::vector<int> Blocks::findBetween(int one, int other) const {
    std::vector<int> row;
    while (one != other) {
        if (at(m_depth, one) < at(m_depth, other))
            std::swap(one, other);
        const int block = blockAbove(one);
        row.push_back(block);
        if (block == blockAbove(other))
            break;
        one = headOf(block);
    }
    return row;
}

} // namespace ebbline::network
