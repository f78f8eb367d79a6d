// SPDX-License-Identifier: MIT
// Numbers of places at which a meter can be held.
#include "plan_numbers.h"

#include "geometry.h"
#include "rings.h"

#include "ebbline/numbered_plan.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace ebbline::drawing {
namespace {

constexpr double number_size = 1.05; // units
constexpr double a_part = 1e6;       // more room around it than along any cable

class PlanNumbers {
public:
    explicit PlanNumbers(const PlanScene& plan)
        : m_plan(plan), m_canvas(plan.canvas), m_unit(plan.unit) {}

    void draw() {
        m_canvas.begin("numbers");
        std::vector<int> numbers;
        std::vector<RingTarget> targets;
        const auto& places = m_plan.site.places;
        for (std::size_t i = 0; i < places.size(); ++i)
            if (const auto target = findTarget(places[i])) {
                numbers.push_back(static_cast<int>(i) + 1);
                targets.push_back(*target);
            }
        const auto rings = placeRings(m_canvas, targets, m_plan.inner, m_unit);
        for (std::size_t i = 0; i < rings.size(); ++i)
            if (rings[i])
                drawNumber(numbers[i], *rings[i], targets[i].about.width == 0);
    }

private:
    void drawNumber(int number, const Ring& ring, bool is_dotted) {
        const double radius = ring_radius * m_unit;
        const auto [from, middle] = ring;
        m_canvas.line({from, between(middle, from, radius / distance(middle, from))},
                      {Ink::Soft, 0.8, {}});
        if (is_dotted)
            m_canvas.polygon(circle(from, ring_dot * m_unit), Ink::Line, std::nullopt);
        m_canvas.polygon(circle(middle, radius), Ink::Sheet, Pen{Ink::Line, 0.12 * m_unit, {}});
        const TextLine text{std::to_string(number), strong(number_size * m_unit)};
        Box box = sizeOf(std::vector{text});
        box.x = middle.x - box.width / 2;
        box.y = middle.y - box.height / 2;
        m_canvas.write(std::vector{text}, box, Align::Middle);
        m_canvas.reserve(Box{middle.x, middle.y, 0, 0}.grown(radius));
    }

    [[nodiscard]] std::optional<RingTarget> findTarget(const MeterPlace& place) const {
        if (place.kind == PlaceKind::Conductor)
            if (const auto target = findCore(place))
                return target;
        const Symbol* symbol = m_plan.layout.findSymbol(place.owner);
        if (symbol == nullptr)
            return std::nullopt;
        if (place.kind == PlaceKind::Joint)
            if (const Port* port = symbol->findPort(place.terminal.terminal))
                return atPort(*port, symbol->box);
        return RingTarget{symbol->box, upwards, a_part};
    }

    /// Just outside, and away from the part's other pole.
    [[nodiscard]] RingTarget atPort(const Port& port, const Box& part) const {
        const Point at{port.at.x + 0.5 * m_unit * port.out.x,
                       port.at.y + 0.5 * m_unit * port.out.y};
        const Point side{-port.out.y, port.out.x};
        const Point middle = part.middle();
        const double off = (at.x - middle.x) * side.x + (at.y - middle.y) * side.y;
        const double sign = off < 0 ? -1 : 1;
        return {Box{at.x, at.y, 0, 0}, {sign * side.x + port.out.x, sign * side.y + port.out.y}, 0};
    }

    /// The middle of a core within its cable's longest straight stretch.
    [[nodiscard]] std::optional<RingTarget> findCore(const MeterPlace& place) const {
        const auto trace = std::ranges::find(
            m_plan.layout.traces, place.owner, [](const Trace& one) { return one.run->id; });
        if (trace == m_plan.layout.traces.end() || trace->line.size() < 2)
            return std::nullopt;
        std::size_t longest = 1;
        for (std::size_t i = 2; i < trace->line.size(); ++i)
            if (distance(trace->line[i - 1], trace->line[i]) >
                distance(trace->line[longest - 1], trace->line[longest]))
                longest = i;
        const Point from = trace->line[longest - 1];
        const Point to = trace->line[longest];
        const double length = std::max(distance(from, to), 1e-6);
        const double side = trace->plus_side * (isPlusCore(place, *trace) ? 1 : -1);
        // To the right of the way, on the page.
        const Point across{-(to.y - from.y) / length * side, (to.x - from.x) / length * side};
        const double off = trace->role == RunRole::Twin ? 0.46 * trace->width : 0; // on its edge
        // The two of a twin not on the same spot, for where both find room on one side only.
        const double share = trace->role == RunRole::Twin ? 0.5 + 0.12 * side : 0.5;
        const auto pointAt = [&](double of_the_way) {
            const Point on_axis = between(from, to, of_the_way);
            return Point{on_axis.x + off * across.x, on_axis.y + off * across.y};
        };
        const Point middle = pointAt(share);
        RingTarget target{Box{middle.x, middle.y, 0, 0}, across, length};
        for (const double aside : {0.15, -0.15, 0.3, -0.3})
            target.also.push_back(pointAt(share + aside));
        return target;
    }

    [[nodiscard]] bool isPlusCore(const MeterPlace& place, const Trace& trace) const {
        const auto element = static_cast<std::size_t>(place.steps.front().element);
        return m_plan.network.elements[element].name == trace.run->coreName(trace.plus_core);
    }

    const PlanScene& m_plan;
    Canvas& m_canvas;
    double m_unit;
};

} // namespace

void drawNumbers(const PlanScene& plan) {
    PlanNumbers(plan).draw();
}

Drawing numberedPlan(const Network& network, std::span<const MeterPlace> places, const View& view) {
    Inquiry unrun;
    unrun.examination.network = network;
    Canvas canvas(view);
    const Moment moment{unrun};
    drawPlan({canvas, moment, canvas.area().grown(-1), unitFor(view), true, places});
    canvas.describe(words("Plan of the installation, its places numbered"), "");
    Drawing plan = canvas.take();
    for (Group& group : plan.groups) {
        group.id.clear();
        group.meaning.clear();
    }
    return plan;
}

} // namespace ebbline::drawing
