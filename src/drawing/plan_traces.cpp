// SPDX-License-Identifier: MIT
// Cables on the plan: along their routes where they have one, else along upright ways.
#include "plan_layout.h"
#include "twin_sides.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace ebbline::drawing {
namespace {

// Twice the area is drawn a good quarter wider: 16 mm² must not hide what it connects.
constexpr double width_of_1_mm2 = 0.78; // units
constexpr double width_power = 0.35;
constexpr double signal_width = 0.1;

double areaOf(const Network& network, const Run& run) {
    double area_mm2 = 0;
    for (const Element& element : network.elements)
        if (element.kind == ElementKind::Conductor && element.part == run.id)
            area_mm2 = std::max(area_mm2, element.area_mm2);
    return area_mm2;
}

class Tracing {
public:
    Tracing(PlanLayout& layout, const Network& network, const Box& area, double unit)
        : m_layout(layout), m_network(network), m_unit(unit),
          m_router(area.grown(-0.3 * unit), std::max(5.0, 0.55 * unit)), m_sides(layout) {
        for (const Symbol& symbol : layout.symbols)
            m_router.block(symbol.box.grown(0.75 * unit), 1.3 * unit);
    }

    /// Twin cables first, those of the supply loop before others: they get the straightest ways,
    /// and single conductors find their poles where the twins want them.
    void trace() {
        std::vector<const Run*> runs;
        runs.reserve(m_network.installation.runs.size());
        for (const Run& run : m_network.installation.runs)
            runs.push_back(&run);
        const auto rank = [&](const Run* run) {
            const RunRole role = roleOf(m_network, *run);
            return std::tuple(
                role >= RunRole::Other, run->cores.size() < 2, -run->length(), run->id);
        };
        std::ranges::sort(runs, {}, rank);
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
        m_clear = trace.width / 2 + 0.5 * m_unit;
        trace.line = lineOf(run, *from, *to);
        if (run.cores.size() == 2) {
            trace.plus_core = plusCoreOf(m_network, run);
            m_sides.settle(trace);
        }
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
            std::vector<Point> line =
                m_router.find({from->at, from->out, 0.6 * m_unit}, {to->at, to->out, 0.6 * m_unit});
            m_router.occupy(line, 0.3 * m_unit);
            if (trace.line.empty())
                trace.line = std::move(line);
            else
                trace.tails.push_back({.line = std::move(line)});
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
                end = WayEnd{port->at, port->out, m_clear};
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
        line.reserve(run.route_m.size());
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
        const std::vector<Point> way = m_router.find(end, {line[1], {}, 0});
        line.erase(line.begin(), line.begin() + 2);
        line.insert(line.begin(), way.begin(), way.end());
    }

    /// The way of a single core out of its cable: from its own edge to the side where it ends. Of a
    /// cable with more cores from its middle.
    [[nodiscard]] std::vector<Point>
    leavingWay(const Trace& trace, const Tail& tail, const Port& port) {
        std::vector<Point> line = trace.line;
        if (!tail.at_from)
            std::ranges::reverse(line);
        const double along = std::min(1.4 * m_unit, 0.3 * lengthOf(line));
        const std::vector<Point> piece = pieceOf(line, 0, along);
        const WayEnd start{port.at, port.out, 0.7 * m_unit};
        if (piece.size() < 2)
            return m_router.find(start, {line.front(), {}, 0});
        const Point joins = piece.back();
        const Point before = piece[piece.size() - 2];
        const double apart = std::max(distance(before, joins), 1e-9);
        const Point right{std::round((before.y - joins.y) / apart),
                          std::round((joins.x - before.x) / apart)};
        const auto edge = [&](double side) {
            return Point{joins.x + side * right.x * trace.width / 2,
                         joins.y + side * right.y * trace.width / 2};
        };
        const double target = (port.at.x - joins.x) * right.x + (port.at.y - joins.y) * right.y;
        const double side = target >= 0 ? 1 : -1;
        std::vector<Point> way =
            m_router.find(start, {edge(side), {side * right.x, side * right.y}, 0.5 * m_unit});
        const double own_side =
            (tail.core == trace.plus_core ? 1 : -1) * trace.plus_side * (tail.at_from ? 1 : -1);
        if (trace.run->cores.size() != 2)
            way.push_back(joins);
        else if (own_side != side)
            way.push_back(edge(own_side));
        return way;
    }

    void addTails(Trace& trace, const Run& run) {
        for (const bool at_from : {true, false}) {
            const Terminal& main = at_from ? run.cores.front().from : run.cores.front().to;
            const Port* main_port = findPort(main);
            for (std::size_t core = 0; core < run.cores.size(); ++core) {
                const Terminal& terminal = at_from ? run.cores[core].from : run.cores[core].to;
                const Port* port = findPort(terminal);
                if (port == nullptr || (terminal.part == main.part && main_port != nullptr &&
                                        port->out == main_port->out))
                    continue;
                Tail tail{core, at_from, {}};
                tail.line = leavingWay(trace, tail, *port);
                m_router.occupy(tail.line, 0.4 * m_unit);
                trace.tails.push_back(std::move(tail));
            }
        }
    }

    PlanLayout& m_layout;
    const Network& m_network;
    double m_unit;
    Router m_router;
    double m_clear = 0; ///< straight stretch that the cable in hand needs before its first bend
    TwinSides m_sides;
};

} // namespace

void traceRuns(PlanLayout& layout, const Network& network, const Box& area, double unit) {
    Tracing(layout, network, area, unit).trace();
}

} // namespace ebbline::drawing
