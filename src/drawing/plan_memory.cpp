// SPDX-License-Identifier: MIT
// Layouts of plans drawn lately. Each is kept with a copy of what it was made of, which is compared
// whole: that takes a hundredth of the time of a layout.
#include "plan_memory.h"

#include <algorithm>
#include <deque>
#include <memory>

namespace ebbline::drawing {
namespace {

/// A page in two sizes and a start beside it, twice over.
constexpr std::size_t most_remembered = 8;

struct Remembered {
    Network network;
    Box area;
    double unit = 0;
    PlanLayout layout; ///< points into that network

    Remembered(const Network& drawn, const Box& where, double scale)
        : network(drawn), area(where), unit(scale), layout(layOutPlan(network, area, unit)) {}
    Remembered(const Remembered&) = delete;
    Remembered& operator=(const Remembered&) = delete;

    [[nodiscard]] bool isOf(const Network& drawn, const Box& where, double scale) const {
        return area == where && unit == scale && network.loop == drawn.loop &&
               network.nodes == drawn.nodes && network.elements == drawn.elements &&
               network.installation == drawn.installation;
    }

    /// The layout with the parts and runs of an equal network.
    [[nodiscard]] PlanLayout pointingInto(const Installation& drawn) const {
        PlanLayout copy = layout;
        for (Symbol& symbol : copy.symbols)
            symbol.part = drawn.parts.data() + (symbol.part - network.installation.parts.data());
        for (Trace& trace : copy.traces)
            trace.run = drawn.runs.data() + (trace.run - network.installation.runs.data());
        return copy;
    }
};

} // namespace

PlanLayout recallLayout(const Network& network, const Box& area, double unit) {
    static thread_local std::deque<std::unique_ptr<Remembered>> memory; // the newest first
    const auto found = std::ranges::find_if(
        memory, [&](const auto& one) { return one->isOf(network, area, unit); });
    if (found != memory.end())
        return (*found)->pointingInto(network.installation);
    memory.push_front(std::make_unique<Remembered>(network, area, unit));
    if (memory.size() > most_remembered)
        memory.pop_back();
    return memory.front()->pointingInto(network.installation);
}

} // namespace ebbline::drawing
