// SPDX-License-Identifier: MIT
// Answers about small networks by listing every simple path; shares no code with the survey.
#pragma once

#include "ebbline/network.h"

#include <cstdint>
#include <functional>
#include <initializer_list>
#include <vector>

namespace ebbline {

/// A set of elements, one bit each; networks have at most 32.
using Elements = std::uint32_t;

[[nodiscard]] constexpr Elements only(int element) {
    return Elements{1} << element;
}
[[nodiscard]] constexpr bool holds(Elements set, int element) {
    return (set & only(element)) != 0;
}
[[nodiscard]] std::vector<int> asList(Elements set);

class Listed {
public:
    /// The network outlives this.
    explicit Listed(const Network& of) : network(of) {}

    const Network& network;

    [[nodiscard]] int count() const { return static_cast<int>(network.elements.size()); }
    [[nodiscard]] const Element& element(int i) const {
        return network.elements[static_cast<std::size_t>(i)];
    }
    [[nodiscard]] bool isOf(int i, std::initializer_list<ElementKind> kinds) const;
    [[nodiscard]] bool isSource(int i) const;
    [[nodiscard]] bool isConsumer(int i) const;
    [[nodiscard]] bool isFuse(int i) const;
    [[nodiscard]] bool isDrawnWay(int i) const;
    [[nodiscard]] bool isOpen(int i) const;
    [[nodiscard]] bool isWay(int i) const { return isDrawnWay(i) && !isOpen(i); }
    [[nodiscard]] int plus(int i) const { return isSource(i) ? element(i).to : element(i).from; }
    [[nodiscard]] int minus(int i) const { return isSource(i) ? element(i).from : element(i).to; }

    /// Which elements may be gone through.
    using Filter = std::function<bool(int element)>;
    /// The elements of every path that passes no node twice; one empty set from a node to itself.
    [[nodiscard]] std::vector<Elements> paths(const Filter& filter, int from, int to) const;
    /// The elements of every ring that passes no node twice.
    [[nodiscard]] std::vector<Elements> rings(const Filter& filter) const;

    /// As the installation stands.
    [[nodiscard]] std::vector<Elements> ways(int from, int to) const;
    [[nodiscard]] bool areJoined(int from, int to) const { return !ways(from, to).empty(); }
    /// As drawn, from every source's plus to a node, to either end of an element.
    [[nodiscard]] std::vector<Elements> waysFromPlus(int to) const;
    [[nodiscard]] std::vector<Elements> waysFromPlusToElement(int i) const;
    /// Sets of elements with each of which the fridge is supplied; `reversed`: wrong way round.
    [[nodiscard]] std::vector<Elements> supplies(bool reversed) const;
    [[nodiscard]] double ohm(Elements set) const;
};

} // namespace ebbline
