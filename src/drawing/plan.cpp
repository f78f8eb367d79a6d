// SPDX-License-Identifier: MIT
// The plan: the installation to scale, its cables filled by what is left in them.
#include "font.h"
#include "names.h"
#include "part_state.h"
#include "plan_foot.h"
#include "plan_memory.h"
#include "plan_numbers.h"
#include "plan_scene.h"
#include "ribbon.h"
#include "sentences.h"

#include "ebbline/error.h"
#include "ebbline/seen.h"
#include "ebbline/telling.h"
#include "ebbline/words.h"

#include <algorithm>
#include <utility>

namespace ebbline::drawing {
namespace {

class PlanPicture {
public:
    explicit PlanPicture(const Site& site) : m_plan(site), m_canvas(site.canvas) {}

    void draw() {
        drawRooms();
        drawCables();
        drawParts();
        drawJoints();
        drawMark();
        if (m_plan.inner.height < m_plan.area.height)
            drawFoot(m_plan);
        if (!m_plan.site.places.empty())
            drawNumbers(m_plan);
        labelPlan(m_plan);
    }

private:
    /// Outline and keep-outs.
    void drawRooms() {
        if (!m_plan.layout.metres)
            return;
        const double unit = m_plan.unit;
        m_canvas.begin("rooms");
        drawOutline(m_plan.installation().plan.outline_m, {Ink::Faint, 0.14 * unit, {}});
        for (const KeepOut& keep_out : m_plan.installation().keep_outs)
            drawOutline(keep_out.outline_m, {Ink::Faint, 1, {0.4 * unit, 0.3 * unit}});
    }

    void drawOutline(const std::vector<Position>& outline, const Pen& pen) {
        const auto& metres = m_plan.layout.metres;
        EBBLINE_ASSERT(metres.has_value(), "an outline is drawn to scale");
        std::vector<Point> points;
        points.reserve(outline.size());
        for (const Position place : outline)
            points.push_back(metres->at(place));
        const bool inside = std::ranges::all_of(
            points, [&](Point point) { return m_plan.area.contains({point.x, point.y, 0, 0}); });
        if (inside)
            m_canvas.polygon(std::move(points), std::nullopt, pen);
    }

    void drawCables() {
        const std::vector<Trace>& traces = m_plan.layout.traces;
        m_plan.hatched.resize(traces.size());
        for (std::size_t i = traces.size(); i-- > 0;) {
            std::string meaning = nameOf(*traces[i].run);
            if (traces[i].role != RunRole::Other && traces[i].role != RunRole::Signal)
                meaning += ": " + lossWords(lossOf(m_plan.now, *traces[i].run));
            m_canvas.begin("run", traces[i].run->id, meaning);
            const auto fill = fillOf(m_plan.now, traces[i]);
            drawRibbon(m_canvas, traces[i], fill, m_plan.small, m_plan.hatched[i]);
            for (std::size_t k = 0; fill && k < m_plan.beside.size(); ++k)
                if (const auto other = fillOf(m_plan.beside[k], traces[i]))
                    drawFillOutline(m_canvas, traces[i], *other, *fill, k, m_plan.small);
        }
    }

    void drawParts() {
        for (const Symbol& symbol : m_plan.layout.symbols) {
            m_canvas.begin("part", symbol.part->id, nameOf(*symbol.part));
            const Part then =
                m_plan.site.bare ? *symbol.part : partAt(m_plan.site.moment, *symbol.part);
            Symbol shown = symbol;
            shown.part = &then;
            drawSymbol(m_canvas, shown, m_plan.small, captionOf(symbol));
            m_canvas.protect(symbol.box);
            for (const Port& port : symbol.ports)
                offerTerminal({symbol.part->id, port.terminal}, port);
        }
    }

    /// Just outside its part, where a lead covers nothing that is written within.
    void offerTerminal(Terminal terminal, const Port& port) {
        const double out = 0.55 * m_plan.unit;
        const Point at{port.at.x + out * port.out.x, port.at.y + out * port.out.y};
        m_canvas.terminal({std::move(terminal), at});
        if (m_plan.site.moment.meter)
            m_canvas.reserve(Box{at.x, at.y, 0, 0}.grown(0.8 * m_plan.unit));
    }

    /// The fridge says what it is doing and what arrives there.
    [[nodiscard]] Caption captionOf(const Symbol& symbol) const {
        if (symbol.part->id != m_plan.installation().subject)
            return {};
        const double unit = m_plan.unit;
        const double room = symbol.box.width - 1.6 * unit;
        const auto line = [&](const std::string& text, const Style& style) {
            return TextLine{shortened(text, style.size, style.bold, room), style};
        };
        const Moment& moment = m_plan.site.moment;
        Caption caption;
        caption.lines = {line(nameOf(*symbol.part), strong(unit))};
        if (m_plan.site.bare)
            return caption;
        caption.lines.push_back(
            line(activity(moment.examination().start, moment.at_s), common(unit)));
        if (m_plan.now.hasLoop())
            caption.lines.push_back(
                {volts(m_plan.now.reversed ? -m_plan.now.arriving() : m_plan.now.arriving()),
                 strong(1.2 * unit)});
        return caption;
    }

    void drawJoints() {
        const double unit = m_plan.unit;
        for (const Portion& loss : m_plan.portions) {
            if (loss.kind != PortionKind::Joint)
                continue;
            const auto place = findJointPlace(loss.id);
            if (!place)
                continue;
            m_canvas.begin("joint", loss.id, loss.name + ": " + lossWords(loss.volts));
            m_canvas.polygon(
                circle(*place, 0.5 * unit), Ink::Sheet, Pen{Ink::Warning, 0.2 * unit, {}});
            m_plan.joints.push_back({&loss, *place});
        }
    }

    /// Points out one thing, whatever it loses: a joint by a ring, a part by a frame, a cable along
    /// its middle.
    void drawMark() {
        const std::string& thing = m_plan.site.moment.marked;
        if (thing.empty())
            return;
        m_canvas.begin("mark", thing, nameOfThing(m_plan.installation(), thing));
        const double unit = m_plan.unit;
        const Pen pen{Ink::Warning, 0.3 * unit, {}};
        const std::string owner = thing.substr(0, thing.find('.'));
        if (const auto place = findJointPlace(thing)) {
            m_canvas.polygon(circle(*place, 1.1 * unit), std::nullopt, pen);
            m_canvas.reserve(Box{place->x, place->y, 0, 0}.grown(1.3 * unit));
        } else if (const Symbol* symbol = m_plan.layout.findSymbol(owner)) {
            m_canvas.polygon(rectangle(symbol->box.grown(0.4 * unit)), std::nullopt, pen);
            m_canvas.reserve(symbol->box.grown(0.6 * unit));
        } else {
            for (const Trace& trace : m_plan.layout.traces)
                if (trace.run->id == owner)
                    m_canvas.line(trace.line, pen);
        }
    }

    /// Where a run's joint lies: at the end of its core.
    [[nodiscard]] std::optional<Point> findJointPlace(const std::string& joint) const {
        for (const Trace& trace : m_plan.layout.traces)
            for (std::size_t core = 0; core < trace.run->cores.size(); ++core)
                for (const bool from : {true, false})
                    if (trace.run->endName(core, from ? "from" : "to") == joint)
                        return endOf(trace, core, from);
        return std::nullopt;
    }

    [[nodiscard]] std::optional<Point>
    endOf(const Trace& trace, std::size_t core, bool from) const {
        if (trace.line.size() < 2)
            return std::nullopt;
        for (const Tail& tail : trace.tails)
            if (tail.core == core && tail.at_from == from)
                return pieceOf(tail.line, 0, 0.8 * m_plan.unit).back();
        const double in = std::min(0.8 * m_plan.unit, lengthOf(trace.line) / 2);
        const double side = core == trace.plus_core ? trace.plus_side : -trace.plus_side;
        const double shift = trace.role == RunRole::Twin ? side * trace.width / 2 : 0;
        std::vector<Point> line = parallel(trace.line, shift, shift);
        if (!from)
            std::ranges::reverse(line);
        const std::vector<Point> piece = pieceOf(line, 0, in);
        return piece.empty() ? std::nullopt : std::optional(piece.back());
    }

    PlanScene m_plan;
    Canvas& m_canvas;
};

Network asSeen(Network network) {
    network.installation = installation::asSeen(std::move(network.installation));
    return network;
}

} // namespace

PlanScene::PlanScene(const Site& where)
    : site(where), canvas(where.canvas), unit(where.unit),
      seen(where.bare ? std::optional(asSeen(where.moment.examination().network)) : std::nullopt),
      network(seen ? *seen : where.moment.examination().network),
      now(where.bare
              ? Figures{.network = &network}
              : figuresAt(where.moment, where.moment.examination().start, where.moment.at_s)),
      portions(findPortions(now)) {
    if (const Portion* worst = findCulprit(now, portions))
        culprit = worst->id;
    if (!where.bare)
        for (const Outline& outline : where.moment.outlines)
            beside.push_back(figuresAt({*outline.inquiry, outline.at_s},
                                       outline.inquiry->examination.start,
                                       outline.at_s));
    canvas.begin("plan", "", words("The installation as it is laid."));
    area = drawSheet(where);
    const double foot = area.height > 22 * unit ? 2.4 * unit : 0;
    inner = {area.x, area.y, area.width, area.height - foot};
    layout = recallLayout(network, inner, unit);
    small = unit * symbolScale(inner, unit);
}

void drawPlan(const Site& site) {
    PlanPicture(site).draw();
}

} // namespace ebbline::drawing
