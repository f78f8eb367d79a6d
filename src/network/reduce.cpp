// SPDX-License-Identifier: MIT
// Chains of linear elements become one branch; its members say how inner voltages are restored.
#include "ebbline/network.h"

#include <algorithm>

namespace ebbline::network {
namespace {

/// How many branch ends and devices meet at each node.
struct Meeting {
    std::vector<std::size_t> branches;
    bool has_device = false;
};

std::vector<Meeting> meetings(const Network& network) {
    std::vector<Meeting> at(network.nodes.size());
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        for (const int node : {network.branches[i].from, network.branches[i].to})
            at[static_cast<std::size_t>(node)].branches.push_back(i);
    for (const Element& element : network.elements)
        if (!element.linear)
            for (const int node : {element.from, element.to})
                at[static_cast<std::size_t>(node)].has_device = true;
    at[0].has_device = true; // the reference node stays
    return at;
}

Branch turned(Branch branch) {
    std::swap(branch.from, branch.to);
    std::ranges::reverse(branch.members);
    for (Step& step : branch.members)
        step.sign = -step.sign;
    return branch;
}

/// One branch from the two that meet at `node` and nothing else does.
Branch joined(const Branch& one, const Branch& other, int node) {
    Branch first = one.to == node ? one : turned(one);
    const Branch second = other.from == node ? other : turned(other);
    first.to = second.to;
    first.ohm += second.ohm;
    first.henry += second.henry;
    first.members.insert(first.members.end(), second.members.begin(), second.members.end());
    return first;
}

} // namespace

Network reduce(Network network) {
    std::vector<Meeting> at = meetings(network);
    std::vector<bool> gone(network.branches.size(), false);
    for (std::size_t node = 0; node < at.size(); ++node) {
        if (at[node].has_device || at[node].branches.size() != 2)
            continue;
        const std::size_t kept = at[node].branches[0];
        const std::size_t merged = at[node].branches[1];
        if (kept == merged)
            continue; // a ring that touches nothing else
        network.branches[kept] =
            joined(network.branches[kept], network.branches[merged], static_cast<int>(node));
        gone[merged] = true;
        at[node].branches.clear();
        for (const int end : {network.branches[kept].from, network.branches[kept].to})
            std::ranges::replace(at[static_cast<std::size_t>(end)].branches, merged, kept);
    }
    std::size_t index = 0;
    std::erase_if(network.branches, [&](const Branch&) { return gone[index++]; });
    return network;
}

} // namespace ebbline::network
