// SPDX-License-Identifier: MIT
// The ways of a network as an undirected graph; two nodes may be joined more than once.
#pragma once

#include "ebbline/network.h"

#include <span>
#include <vector>

namespace ebbline::network {

/// Whether what is open now counts as a way.
enum class Reading { AsItStands, AsDrawn };

/// Current passes through; everything else is an end, and a meter is neither.
[[nodiscard]] bool isWay(ElementKind kind);
[[nodiscard]] bool isSource(ElementKind kind);
[[nodiscard]] bool isConsumer(ElementKind kind);
/// A fuse or a breaker.
[[nodiscard]] bool isFuse(ElementKind kind);

/// Nodes of a source's or consumer's posts.
[[nodiscard]] int plusOf(const Element& element);
[[nodiscard]] int minusOf(const Element& element);

/// For each element whether it is a way that is open, with no event that closes it.
[[nodiscard]] std::vector<bool> findOpen(const Network& network);

/// Indices of the elements of which `is` is true, ascending.
[[nodiscard]] std::vector<int> findElements(const Network& network, bool (*is)(ElementKind));

/// `values[index]` for the signed indices of nodes and elements.
template <class Values>
decltype(auto) at(Values& values, int index) {
    return values[static_cast<std::size_t>(index)];
}

/// One way out of a node.
struct Hop {
    int element = 0;
    int node = 0; ///< where it leads
};

class Wiring {
public:
    Wiring(const Network& network, Reading reading);

    /// A node more, joined to each of these by an element more; returns it.
    int addHub(std::span<const int> nodes);

    [[nodiscard]] int nodes() const { return static_cast<int>(m_hops.size()); }
    [[nodiscard]] int elements() const { return m_elements; }
    [[nodiscard]] std::span<const Hop> hopsAt(int node) const { return at(m_hops, node); }

private:
    void join(int element, int from, int to);

    int m_elements = 0;
    std::vector<std::vector<Hop>> m_hops;
};

} // namespace ebbline::network
