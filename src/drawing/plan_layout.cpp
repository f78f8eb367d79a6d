// SPDX-License-Identifier: MIT
// The plan's layout: parts, then their terminals, then the cables between them.
#include "plan_layout.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ebbline::drawing {
namespace {

bool goesThrough(const Network& network, const std::vector<Step>& way, const Run& run) {
    return std::ranges::any_of(way, [&](const Step& step) {
        const Element& element = network.elements[static_cast<std::size_t>(step.element)];
        return element.kind == ElementKind::Conductor && element.part == run.id;
    });
}

bool isCallTerminal(const Installation& installation, const Terminal& terminal) {
    const Part* part = installation.findPart(terminal.part);
    return part != nullptr && (std::holds_alternative<Thermostat>(part->body) ||
                               (std::holds_alternative<Controller>(part->body) &&
                                terminal.terminal != "plus" && terminal.terminal != "minus"));
}

const Port* findPort(const PlanLayout& layout, const Terminal& terminal) {
    const Symbol* symbol = layout.findSymbol(terminal.part);
    return symbol == nullptr ? nullptr : symbol->findPort(terminal.terminal);
}

/// Moves a part with its ports, unless it would come close to another one.
bool shift(PlanLayout& layout, const std::string& part, Point by, double air) {
    for (Symbol& symbol : layout.symbols) {
        if (symbol.part->id != part)
            continue;
        Box there = symbol.box;
        there.x += by.x;
        there.y += by.y;
        for (const Symbol& other : layout.symbols)
            if (&other != &symbol && other.box.overlaps(there.grown(air)))
                return false;
        symbol.box = there;
        for (Port& port : symbol.ports)
            port.at = {port.at.x + by.x, port.at.y + by.y};
        return true;
    }
    return false;
}

/// A part that nearly faces the one before it is moved in line with it: no cable needs a small
/// step there. Each part once.
void alignFacing(PlanLayout& layout, const Installation& installation, double unit) {
    const double most = 2.0 * unit;
    std::set<std::string> moved;
    for (const Run& run : installation.runs) {
        const Core& core = run.cores.front();
        const Port* from = findPort(layout, core.from);
        const Port* to = findPort(layout, core.to);
        if (run.cores.size() != 1 || run.route_m.size() > 2 || from == nullptr || to == nullptr ||
            from->out.x != -to->out.x || from->out.y != -to->out.y)
            continue;
        const Point off{from->out.x == 0 ? from->at.x - to->at.x : 0,
                        from->out.y == 0 ? from->at.y - to->at.y : 0};
        const double away = std::abs(off.x) + std::abs(off.y);
        const Part* part = installation.findPart(core.to.part);
        if (away < 0.01 || away > most || !isInline(*part) || moved.contains(part->id))
            continue;
        if (shift(layout, part->id, off, 0.8 * unit))
            moved.insert(part->id);
    }
}

} // namespace

RunRole roleOf(const Network& network, const Run& run) {
    const bool out = network.loop && goesThrough(network, network.loop->out, run);
    const bool back = network.loop && goesThrough(network, network.loop->back, run);
    if (out && back)
        return RunRole::Twin;
    if (out)
        return RunRole::Plus;
    if (back)
        return RunRole::Return;
    for (const Core& core : run.cores)
        if (isCallTerminal(network.installation, core.from) ||
            isCallTerminal(network.installation, core.to))
            return RunRole::Signal;
    return RunRole::Other;
}

bool isInLoop(const Network& network, const Part& part) {
    if (!network.loop || part.id == network.installation.subject)
        return true;
    const Element& battery = network.elements[static_cast<std::size_t>(network.loop->battery)];
    // Bars and studs are no elements: what a run of the loop ends at belongs to it.
    return battery.part == part.id ||
           std::ranges::any_of(network.installation.runs, [&](const Run& run) {
               const RunRole role = roleOf(network, run);
               return role != RunRole::Other && role != RunRole::Signal &&
                      std::ranges::any_of(run.cores, [&](const Core& core) {
                          return core.from.part == part.id || core.to.part == part.id;
                      });
           });
}

bool isSmallPlan(const Box& area, double unit) {
    return std::sqrt(area.width * area.height) < 32 * unit;
}

PlanLayout layOutPlan(const Network& network, const Box& area, double unit) {
    PlanLayout layout;
    placeSymbols(layout, network, area, unit);
    const double small = unit * symbolScale(area, unit);
    placePorts(layout, network.installation, small);
    alignFacing(layout, network.installation, small);
    traceRuns(layout, network, area, small);
    return layout;
}

} // namespace ebbline::drawing
