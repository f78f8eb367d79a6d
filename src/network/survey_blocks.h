// SPDX-License-Identifier: MIT
// Blocks of a wiring (its biconnected components): what has one way, and what has several.
#pragma once

#include "survey_wiring.h"

#include <optional>
#include <vector>

namespace ebbline::network {

/// Every way lies in one block. In a block of one element that element is the only way between its
/// two nodes; in a larger one every element has a way around it. Blocks hang together at single
/// nodes, as a forest, so that between two nodes there is one row of blocks.
class Blocks {
public:
    /// Each tree of the forest grows from its lowest node, that of `root` from `root`.
    explicit Blocks(const Wiring& wiring, int root = 0);

    [[nodiscard]] const std::vector<std::vector<int>>& members() const { return m_members; }
    /// -1 for what is no way.
    [[nodiscard]] int blockOf(int element) const { return at(m_block_of, element); }
    /// The block's node nearest to the root.
    [[nodiscard]] int headOf(int block) const { return at(m_head, block); }
    /// The block by which a node hangs on towards the root; -1 for a root.
    [[nodiscard]] int blockAbove(int node) const { return at(m_above, node); }
    /// Nodes from the roots outwards.
    [[nodiscard]] const std::vector<int>& order() const { return m_order; }

    [[nodiscard]] bool isSingle(int block) const { return at(m_members, block).size() == 1; }
    /// Whether ways lead from one node to the other.
    [[nodiscard]] bool areJoined(int one, int other) const {
        return at(m_root, one) == at(m_root, other);
    }
    /// The row of blocks between two nodes that are joined.
    [[nodiscard]] std::vector<int> findBetween(int one, int other) const;

private:
    friend class BlockSearch;

    std::vector<std::vector<int>> m_members;
    std::vector<int> m_head;
    std::vector<int> m_block_of;
    std::vector<int> m_above;
    std::vector<int> m_root;
    std::vector<int> m_depth; ///< blocks between a node and its root
    std::vector<int> m_order;
};

} // namespace ebbline::network
