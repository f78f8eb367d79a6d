// SPDX-License-Identifier: MIT
// Cables on the plan: along their routes where they have one, else along upright ways.
#include "plan_layout.h"

#include "ebbline/error.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

// Twice the area is drawn a good quarter wider: 16 mm² must not hide what it connects.
constexpr double width_of_1_mm2 = 0.86; // units
constexpr double width_power = 0.35;
constexpr double signal_width = 0.1;

double areaOf(const Network& network, const Run& run) {
    double area_mm2 = 0;
    for (const Element& element : network.elements)
        if (element.kind == ElementKind::Conductor && element.part == run.id)
            area_mm2 = std::max(area_mm2, element.area_mm2);
    return area_mm2;
}

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

class Tracing {
public:
    Tracing(PlanLayout& layout, const Network& network, const Box& area, double unit)
        : m_layout(layout), m_network(network), m_unit(unit),
          m_router(area.grown(-0.3 * unit), std::max(5.0, 0.55 * unit)) {
        for (const Symbol& symbol : layout.symbols)
            m_router.block(symbol.box.grown(0.75 * unit), 1.3 * unit);
    }

    /// The supply loop first: it gets the straightest ways.
    void trace() {
        std::vector<const Run*> runs;
        for (const Run& run : m_network.installation.runs)
            runs.push_back(&run);
        std::ranges::stable_sort(runs, {}, [&](const Run* run) {
            return std::pair(roleOf(m_network, *run) >= RunRole::Other, -run->length());
        });
        for (const Run* run : runs)
            trace(*run);
    }

private:
    void trace(const Run& run) {
        Trace trace{.run = &run, .role = roleOf(m_network, run)};
        trace.width =
            m_unit * (trace.role == RunRole::Signal
                          ? signal_width
                          : width_of_1_mm2 * std::pow(areaOf(m_network, run), width_power));
        if (trace.role == RunRole::Signal)
            return traceSignal(std::move(trace), run);
        const auto from = mainEnd(run, true);
        const auto to = mainEnd(run, false);
        if (!from || !to)
            return; // to something that has no place on a plan
        trace.line = lineOf(run, *from, *to);
        m_router.occupy(trace.line, trace.width / 2 + 0.5 * m_unit);
        addTails(trace, run);
        m_layout.traces.push_back(std::move(trace));
    }

    /// Core by core: they lead to and fro between the same two parts.
    void traceSignal(Trace trace, const Run& run) {
        for (const Core& core : run.cores) {
            const Port* from = findPort(core.from);
            const Port* to = findPort(core.to);
            if (from == nullptr || to == nullptr)
                continue;
            std::vector<Point> line = m_router.find({from->at, from->out}, {to->at, to->out});
            m_router.occupy(line, 0.3 * m_unit);
            if (trace.line.empty())
                trace.line = std::move(line);
            else
                trace.tails.push_back(std::move(line));
        }
        m_layout.traces.push_back(std::move(trace));
    }

    [[nodiscard]] const Port* findPort(const Terminal& terminal) const {
        const Symbol* symbol = m_layout.findSymbol(terminal.part);
        return symbol == nullptr ? nullptr : symbol->findPort(terminal.terminal);
    }

    /// Where the cable itself ends: between the ports of all cores that end at the first one's
    /// side of the first one's part.
    [[nodiscard]] std::optional<WayEnd> mainEnd(const Run& run, bool at_from) const {
        std::optional<WayEnd> end;
        int count = 0;
        Point sum;
        std::string part;
        for (const Core& core : run.cores) {
            const Terminal& terminal = at_from ? core.from : core.to;
            const Port* port = findPort(terminal);
            if (port == nullptr)
                continue;
            if (!end) {
                end = WayEnd{port->at, port->out};
                part = terminal.part;
            }
            if (terminal.part != part || !(port->out == end->out))
                continue;
            sum = {sum.x + port->at.x, sum.y + port->at.y};
            ++count;
        }
        if (end)
            end->at = {sum.x / count, sum.y / count};
        return end;
    }

    [[nodiscard]] std::vector<Point>
    lineOf(const Run& run, const WayEnd& from, const WayEnd& to) const {
        if (run.route_m.size() < 2 || !m_layout.metres)
            return m_router.find(from, to);
        // The drawn ends stand for the parts, which may have been moved a little: the cable begins
        // at their terminals, and the first bends move along.
        std::vector<Point> line;
        for (const Position place : run.route_m)
            line.push_back(m_layout.metres->at(place));
        if (line.size() < 3)
            return m_router.find(from, to);
        lead(line, from);
        std::ranges::reverse(line);
        lead(line, to);
        std::ranges::reverse(line);
        return withoutReturns(line);
    }

    /// Lets a line begin at a terminal.
    void lead(std::vector<Point>& line, const WayEnd& end) const {
        const bool upright = std::abs(line[1].x - line[0].x) < std::abs(line[1].y - line[0].y);
        (upright ? line[1].x : line[1].y) = upright ? end.at.x : end.at.y;
        line[0] = end.at;
        const double ahead =
            (line[1].x - line[0].x) * end.out.x + (line[1].y - line[0].y) * end.out.y;
        if (ahead > 0)
            return;
        // It would leave through its own symbol: another way to the first bend.
        const std::vector<Point> way = m_router.find(end, {line[1], {}});
        line.erase(line.begin(), line.begin() + 2);
        line.insert(line.begin(), way.begin(), way.end());
    }

    /// A way that turns straight back on itself is cut short there.
    [[nodiscard]] static std::vector<Point> withoutReturns(const std::vector<Point>& line) {
        std::vector<Point> result;
        for (const Point point : simplified(line)) {
            while (result.size() >= 2) {
                const Point a = result[result.size() - 2];
                const Point b = result.back();
                const double cross = (b.x - a.x) * (point.y - b.y) - (b.y - a.y) * (point.x - b.x);
                const double dot = (b.x - a.x) * (point.x - b.x) + (b.y - a.y) * (point.y - b.y);
                if (std::abs(cross) > 1e-6 || dot > 0)
                    break;
                result.pop_back();
            }
            result.push_back(point);
        }
        return simplified(result);
    }

    void addTails(Trace& trace, const Run& run) {
        for (const bool at_from : {true, false}) {
            const Terminal& main = at_from ? run.cores.front().from : run.cores.front().to;
            const Port* main_port = findPort(main);
            for (const Core& core : run.cores) {
                const Terminal& terminal = at_from ? core.from : core.to;
                const Port* port = findPort(terminal);
                if (port == nullptr || (terminal.part == main.part && main_port != nullptr &&
                                        port->out == main_port->out))
                    continue;
                const double length = lengthOf(trace.line);
                const double along = std::min(1.1 * m_unit, 0.3 * length);
                const std::vector<Point> piece =
                    pieceOf(trace.line, at_from ? 0 : length - along, at_from ? along : length);
                if (piece.empty())
                    continue;
                const Point joins = at_from ? piece.back() : piece.front();
                trace.tails.push_back(m_router.find({port->at, port->out}, {joins, {}}));
                m_router.occupy(trace.tails.back(), 0.4 * m_unit);
            }
        }
    }

    PlanLayout& m_layout;
    const Network& m_network;
    double m_unit;
    Router m_router;
};

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

PlanLayout layOutPlan(const Network& network, const Box& area, double unit) {
    PlanLayout layout;
    placeSymbols(layout, network, area, unit);
    const double small = unit * symbolScale(area, unit);
    placePorts(layout, network.installation, small);
    Tracing(layout, network, area, small).trace();
    return layout;
}

} // namespace ebbline::drawing
