// SPDX-License-Identifier: MIT
// Linear elements in a row or side by side become one branch; its members say how inner voltages
// are restored.
#include "ebbline/network.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace ebbline::network {
namespace {

// Branches of one material differ in the last digits of R and L, others by far more.
constexpr double same_ratio = 1e-12;

Branch turned(Branch branch) {
    std::swap(branch.from, branch.to);
    std::ranges::reverse(branch.members);
    for (Member& member : branch.members)
        member.share = -member.share;
    return branch;
}

void append(std::vector<Member>& members, const std::vector<Member>& others, double share) {
    for (const Member& other : others)
        members.push_back({other.element, other.share * share});
}

/// One branch from the two that meet at `node` and nothing else does.
Branch inRow(const Branch& one, const Branch& other, int node) {
    Branch first = one.to == node ? one : turned(one);
    const Branch second = other.from == node ? other : turned(other);
    first.to = second.to;
    first.ohm += second.ohm;
    first.henry += second.henry;
    append(first.members, second.members, 1);
    return first;
}

/// Whether the current divides between the two in the same shares at all times.
bool divideEvenly(const Branch& one, const Branch& other) {
    const double left = one.ohm * other.henry;
    const double right = other.ohm * one.henry;
    const bool are_alike = (one.henry > 0) == (other.henry > 0);
    return are_alike && one.ohm + other.ohm > 0 &&
           std::abs(left - right) <= same_ratio * (left + right);
}

/// One branch from two between the same nodes.
Branch sideBySide(const Branch& one, const Branch& other) {
    const Branch second = other.from == one.from ? other : turned(other);
    const double share = second.ohm / (one.ohm + second.ohm); // of the first
    Branch both{.from = one.from,
                .to = one.to,
                .ohm = one.ohm * share,
                .henry = one.henry * share,
                .members = {}};
    append(both.members, one.members, share);
    append(both.members, second.members, 1 - share);
    return both;
}

class Reducer {
public:
    explicit Reducer(Network network)
        : m_network(std::move(network)), m_gone(m_network.branches.size(), false),
          m_at(m_network.nodes.size()), m_is_kept(m_network.nodes.size(), false) {
        for (std::size_t i = 0; i < m_network.branches.size(); ++i)
            for (const int node : {m_network.branches[i].from, m_network.branches[i].to})
                branchesAt(node).push_back(i);
        for (const Element& element : m_network.elements)
            if (!element.linear)
                for (const int node : {element.from, element.to})
                    m_is_kept[static_cast<std::size_t>(node)] = true;
        m_is_kept[0] = true; // the reference node
        if (m_network.loop)
            for (const auto& way : {m_network.loop->out, m_network.loop->back})
                for (const Step& step : way)
                    m_loop.insert(step.element);
    }

    Network reduce() {
        do
            mergeRows();
        while (mergeSides());
        std::size_t index = 0;
        std::erase_if(m_network.branches, [&](const Branch&) { return m_gone[index++]; });
        return std::move(m_network);
    }

private:
    std::vector<std::size_t>& branchesAt(int node) { return m_at[static_cast<std::size_t>(node)]; }

    void mergeRows() {
        for (std::size_t node = 0; node < m_at.size(); ++node) {
            if (m_is_kept[node] || m_at[node].size() != 2)
                continue;
            const std::size_t kept = m_at[node][0];
            const std::size_t merged = m_at[node][1];
            if (kept == merged)
                continue; // a ring that touches nothing else
            Branch& branch = m_network.branches[kept];
            branch = inRow(branch, m_network.branches[merged], static_cast<int>(node));
            m_gone[merged] = true;
            m_at[node].clear();
            for (const int end : {branch.from, branch.to})
                std::ranges::replace(branchesAt(end), merged, kept);
        }
    }

    /// Whether any were merged.
    bool mergeSides() {
        std::map<std::pair<int, int>, std::vector<std::size_t>> between;
        bool is_changed = false;
        for (std::size_t i = 0; i < m_network.branches.size(); ++i) {
            const Branch& branch = m_network.branches[i];
            if (m_gone[i] || branch.from == branch.to || isOnLoop(branch))
                continue;
            auto& others = between[std::minmax(branch.from, branch.to)];
            const auto alike = std::ranges::find_if(others, [&](std::size_t other) {
                return divideEvenly(m_network.branches[other], branch);
            });
            if (alike == others.end()) {
                others.push_back(i);
                continue;
            }
            m_network.branches[*alike] = sideBySide(m_network.branches[*alike], branch);
            m_gone[i] = is_changed = true;
            for (const int end : {branch.from, branch.to})
                std::erase(branchesAt(end), i);
        }
        return is_changed;
    }

    /// The loop budget scales what lies on the loop, and nothing beside it.
    [[nodiscard]] bool isOnLoop(const Branch& branch) const {
        return std::ranges::any_of(
            branch.members, [&](const Member& member) { return m_loop.contains(member.element); });
    }

    Network m_network;
    std::vector<bool> m_gone;                   ///< per branch
    std::vector<std::vector<std::size_t>> m_at; ///< branches that end at each node
    std::vector<bool> m_is_kept;                ///< per node: a device ends there
    std::set<int> m_loop;                       ///< elements of the supply loop
};

} // namespace

Network reduce(Network network) {
    return Reducer(std::move(network)).reduce();
}

} // namespace ebbline::network
