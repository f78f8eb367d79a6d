// SPDX-License-Identifier: MIT
// Which side of a twin cable its plus core lies on.
#include "twin_sides.h"

#include <algorithm>

namespace ebbline::drawing {

std::size_t plusCoreOf(const Network& network, const Run& run) {
    for (std::size_t core = 0; core < run.cores.size(); ++core) {
        const auto is_core = [&](const Step& step) {
            return network.elements[static_cast<std::size_t>(step.element)].name ==
                   run.coreName(core);
        };
        if (network.loop && std::ranges::any_of(network.loop->out, is_core))
            return core;
    }
    const bool first_is_minus = run.cores.front().from.terminal.ends_with("minus") ||
                                run.cores.front().to.terminal.ends_with("minus");
    return first_is_minus ? 1 : 0;
}

const Port* TwinSides::findPort(const Terminal& terminal) const {
    const Symbol* symbol = m_layout.findSymbol(terminal.part);
    return symbol == nullptr ? nullptr : symbol->findPort(terminal.terminal);
}

/// The side of the way on which the plus core's port lies at one end; 0 where only one core
/// ends there.
int TwinSides::wantedSide(const Trace& trace, bool at_from) const {
    const auto port_of = [&](std::size_t core) {
        const Core& one = trace.run->cores[core];
        return findPort(at_from ? one.from : one.to);
    };
    const Port* plus = port_of(trace.plus_core);
    const Port* minus = port_of(1 - trace.plus_core);
    const std::size_t n = trace.line.size();
    if (plus == nullptr || minus == nullptr || n < 2 || !(plus->out == minus->out))
        return 0;
    const Point one = trace.line[at_from ? 0 : n - 2];
    const Point other = trace.line[at_from ? 1 : n - 1];
    const double right = (plus->at.x - minus->at.x) * (one.y - other.y) +
                         (plus->at.y - minus->at.y) * (other.x - one.x);
    return right > 0 ? 1 : -1;
}

/// The side on which the plus core should lie so that single cores leave towards where they
/// end; 0 where none leaves.
int TwinSides::likedSide(const Trace& trace) const {
    double right = 0;
    const std::size_t n = trace.line.size();
    for (const bool at_from : {true, false}) {
        const Core& first = trace.run->cores.front();
        const std::string& main = at_from ? first.from.part : first.to.part;
        const Point one = trace.line[at_from ? 0 : n - 2];
        const Point other = trace.line[at_from ? 1 : n - 1];
        for (std::size_t core = 0; core < 2; ++core) {
            const Core& each = trace.run->cores[core];
            const Port* port = findPort(at_from ? each.from : each.to);
            if (port == nullptr || (at_from ? each.from : each.to).part == main)
                continue;
            const double off = (port->at.x - other.x) * (one.y - other.y) +
                               (port->at.y - other.y) * (other.x - one.x);
            const double sign = core == trace.plus_core ? 1 : -1;
            right += sign * (off > 0 ? 1 : -1);
        }
    }
    return right > 0 ? 1 : right < 0 ? -1 : 0;
}

void TwinSides::settle(Trace& trace) {
    const Core& core = trace.run->cores.front();
    const int first = wantedSide(trace, true);
    const int last = wantedSide(trace, false);
    int side = -1;
    for (const int wish : {last,
                           first,
                           likedSide(trace),
                           m_settled.contains(core.to.part) ? last : 0,
                           m_settled.contains(core.from.part) ? first : 0})
        side = wish != 0 ? wish : side;
    trace.plus_side = side;
    const auto settle = [&](const std::string& part, int wanted) {
        if (wanted == 0)
            return;
        if (wanted != side && !m_settled.contains(part))
            turnOver(part);
        m_settled.insert(part);
    };
    settle(core.from.part, first);
    settle(core.to.part, last);
}

/// Mirrors the ports of a part along the side that most of them share.
void TwinSides::turnOver(const std::string& part) {
    for (Symbol& symbol : m_layout.symbols) {
        if (symbol.part->id != part || symbol.ports.empty())
            continue;
        const bool upright = symbol.ports.front().out.x != 0;
        const Point middle = symbol.box.middle();
        for (Port& port : symbol.ports)
            if ((port.out.x != 0) == upright)
                (upright ? port.at.y : port.at.x) =
                    upright ? 2 * middle.y - port.at.y : 2 * middle.x - port.at.x;
    }
}

} // namespace ebbline::drawing
