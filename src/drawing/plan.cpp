// SPDX-License-Identifier: MIT
// The plan: the installation to scale, its cables filled by what is left in them.
#include "figures.h"
#include "font.h"
#include "names.h"
#include "pictures.h"
#include "placer.h"
#include "ribbon.h"
#include "scale.h"
#include "sentences.h"
#include "words.h"

#include "ebbline/text.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

class PlanPicture {
public:
    explicit PlanPicture(const Site& site)
        : m_site(site), m_canvas(site.canvas), m_unit(site.unit),
          m_network(site.moment.examination().network),
          m_now(figuresAt(site.moment, site.moment.examination().start, site.moment.at_s)),
          m_portions(findPortions(m_now)) {
        if (const Portion* culprit = findCulprit(m_portions))
            m_culprit = culprit->id;
    }

    void draw() {
        m_canvas.begin("plan", "", words("The installation as it is laid."));
        m_area = drawSheet(m_site);
        const double foot = m_area.height > 22 * m_unit ? 2.2 * m_unit : 0;
        m_inner = {m_area.x, m_area.y, m_area.width, m_area.height - foot};
        m_layout = layOutPlan(m_network, m_inner, m_unit);
        m_small = m_unit * symbolScale(m_inner, m_unit);
        drawRooms();
        drawCables();
        drawParts();
        drawJoints();
        if (foot > 0)
            drawFoot();
        labelCables(true);
        labelParts();
        labelJoints();
        labelEmpty();
        labelCables(false);
    }

private:
    [[nodiscard]] const Installation& installation() const { return m_network.installation; }

    /// Outline and keep-outs.
    void drawRooms() {
        if (!m_layout.metres)
            return;
        const auto polygon = [&](const std::vector<Position>& outline, const Pen& pen) {
            std::vector<Point> points;
            for (const Position place : outline)
                points.push_back(m_layout.metres->at(place));
            const bool inside = std::ranges::all_of(
                points, [&](Point point) { return m_area.contains({point.x, point.y, 0, 0}); });
            if (inside)
                m_canvas.polygon(std::move(points), std::nullopt, pen);
        };
        m_canvas.begin("rooms");
        polygon(installation().plan.outline_m, {Ink::Faint, 0.14 * m_unit, {}});
        for (const KeepOut& keep_out : installation().keep_outs)
            polygon(keep_out.outline_m, {Ink::Faint, 1, {0.4 * m_unit, 0.3 * m_unit}});
    }

    void drawCables() {
        m_hatched.resize(m_layout.traces.size());
        for (std::size_t i = m_layout.traces.size(); i-- > 0;) {
            const Trace& trace = m_layout.traces[i];
            std::string meaning = nameOf(*trace.run);
            if (trace.role != RunRole::Other && trace.role != RunRole::Signal)
                meaning += words(": loses {}", volts(lossOf(m_now, *trace.run)));
            m_canvas.begin("run", trace.run->id, meaning);
            drawRibbon(m_canvas, trace, fillOf(m_now, trace), m_small, m_hatched[i]);
        }
    }

    void drawParts() {
        for (const Symbol& symbol : m_layout.symbols) {
            m_canvas.begin("part", symbol.part->id, nameOf(*symbol.part));
            Caption caption;
            if (symbol.part->id == installation().subject) {
                const double room = symbol.box.width - 1.6 * m_unit;
                const Style style = strong(m_unit);
                caption.lines = {
                    {shortened(nameOf(*symbol.part), m_unit, true, room), style},
                    {shortened(activity(m_site.moment.examination().start, m_site.moment.at_s),
                               m_unit,
                               false,
                               room),
                     common(m_unit)}};
                if (m_now.hasLoop())
                    caption.lines.push_back({volts(m_now.arriving()), strong(1.2 * m_unit)});
            }
            drawSymbol(m_canvas, symbol, m_small, caption);
        }
    }

    /// Where a run's joint lies: at the end of its cable.
    [[nodiscard]] std::optional<Point> findJointPlace(const std::string& joint) const {
        for (const Trace& trace : m_layout.traces) {
            if (trace.line.size() < 2)
                continue;
            for (std::size_t core = 0; core < trace.run->cores.size(); ++core)
                for (const bool from : {true, false}) {
                    if (trace.run->endName(core, from ? "from" : "to") != joint)
                        continue;
                    const double length = lengthOf(trace.line);
                    const double in = std::min(0.8 * m_unit, length / 2);
                    const double shift =
                        trace.role == RunRole::Twin ? (core == 0 ? -0.5 : 0.5) * trace.width : 0;
                    const std::vector<Point> side = parallel(trace.line, shift, shift);
                    const std::vector<Point> piece =
                        from ? pieceOf(side, 0, in)
                             : pieceOf(side, lengthOf(side) - in, lengthOf(side));
                    if (!piece.empty())
                        return from ? piece.back() : piece.front();
                }
        }
        return std::nullopt;
    }

    void drawJoints() {
        for (const Portion& loss : m_portions) {
            if (loss.kind != PortionKind::Joint)
                continue;
            const auto place = findJointPlace(loss.id);
            if (!place)
                continue;
            m_canvas.begin("joint", loss.id, words("{}: loses {}", loss.name, volts(loss.volts)));
            m_canvas.polygon(
                circle(*place, 0.5 * m_unit), Ink::Sheet, Pen{Ink::Warning, 0.2 * m_unit, {}});
            m_joints.emplace_back(&loss, *place);
        }
    }

    /// The ruler, or the word that there is none; and how to read a cable.
    void drawFoot() {
        m_canvas.begin("ruler");
        const double y = m_area.bottom() - 0.4 * m_unit;
        const Style style = quiet(0.9 * m_unit);
        double right = m_area.x;
        if (m_layout.metres) {
            const double per_m = m_layout.metres->per_m;
            const double step = Scale{0, 1, 0, per_m}.tickStep(3.2 * m_unit);
            const int count =
                std::clamp(static_cast<int>(0.45 * m_area.width / (step * per_m)), 1, 10);
            const double left = m_area.x + 0.8 * m_unit;
            right = left + count * step * per_m;
            m_canvas.line({{left, y - 1.4 * m_unit}, {right, y - 1.4 * m_unit}},
                          {Ink::Soft, 1, {}});
            for (int i = 0; i <= count; ++i) {
                const double x = left + i * step * per_m;
                m_canvas.line({{x, y - 1.75 * m_unit}, {x, y - 1.05 * m_unit}}, {Ink::Soft, 1, {}});
                const std::string number = text::fixed(i * step, step < 1 ? 1 : 0);
                m_canvas.write({i == count ? words("{} m", number) : number, style},
                               x - 2 * m_unit < m_area.x ? m_area.x : x - 2 * m_unit,
                               x - 2 * m_unit < m_area.x ? 2 * (x - m_area.x) : 4 * m_unit,
                               y,
                               Align::Middle);
            }
            right += 3 * m_unit;
        } else {
            const std::string text = words("not to scale");
            m_canvas.write({text, style}, {m_area.x, y});
            right += textWidth(text, style.size, false) + 2 * m_unit;
        }
        drawKey(right, y, style);
    }

    void drawKey(double left, double y, const Style& style) {
        const std::string text = words("wide: thick cable; filled: what is left above the cut-out");
        const double sample = 4 * m_unit;
        const double width = textWidth(text, style.size, false);
        const double x = m_area.right() - width;
        if (x - sample - m_unit < left)
            return;
        Trace trace{.role = RunRole::Twin, .width = 0.9 * m_unit};
        const double middle = y - 0.35 * m_unit;
        trace.line = {{x - sample - 0.7 * m_unit, middle}, {x - 0.7 * m_unit, middle}};
        std::vector<Point> hatched;
        drawRibbon(m_canvas, trace, Fill{1, 0.05}, m_unit, hatched);
        m_canvas.write({text, style}, {x, y});
    }

    /// The longest straight stretches of a cable come first.
    [[nodiscard]] static std::vector<Box> stretchesOf(const Trace& trace) {
        std::vector<Box> boxes;
        for (std::size_t i = 1; i < trace.line.size(); ++i) {
            const auto [left, right] = std::minmax(trace.line[i - 1].x, trace.line[i].x);
            const auto [top, bottom] = std::minmax(trace.line[i - 1].y, trace.line[i].y);
            boxes.push_back(Box{left, top, right - left, bottom - top}.grown(trace.width / 2));
        }
        std::ranges::stable_sort(boxes, std::greater{}, [](const Box& box) {
            // A level stretch has more room for a line of text than an upright one.
            return box.width >= box.height ? 1.5 * box.width : box.height;
        });
        return boxes;
    }

    void labelCables(bool important) {
        m_canvas.begin("names");
        std::vector<const Trace*> traces;
        for (const Trace& trace : m_layout.traces)
            if (isImportant(trace) == important)
                traces.push_back(&trace);
        std::ranges::stable_sort(traces, std::greater{}, [&](const Trace* trace) {
            return std::pair(trace->run->id == m_culprit, lossOf(m_now, *trace->run));
        });
        for (const Trace* trace : traces)
            labelCable(*trace);
    }

    [[nodiscard]] bool isImportant(const Trace& trace) const {
        return trace.run->id == m_culprit ||
               lossOf(m_now, *trace.run) >= std::max(0.02, 0.1 * m_now.lost());
    }

    void labelCable(const Trace& trace) {
        if (trace.role == RunRole::Signal || trace.line.size() < 2)
            return;
        const bool is_culprit = trace.run->id == m_culprit;
        const double loss_v = lossOf(m_now, *trace.run);
        const bool in_loop = trace.role != RunRole::Other && m_now.hasLoop();
        const Style name = is_culprit ? strong(m_unit) : common(m_unit);
        const std::string full = words("{} one way", nameOf(*trace.run));
        std::vector<std::vector<TextLine>> wordings;
        if (in_loop && is_culprit) {
            wordings.push_back(
                {{full, name}, {words("loses {}", volts(loss_v)), strong(1.35 * m_unit)}});
            wordings.push_back({{nameOf(*trace.run), name},
                                {words("loses {}", volts(loss_v)), strong(1.35 * m_unit)}});
        } else if (in_loop && loss_v >= 0.015) {
            wordings.push_back({{nameOf(*trace.run), name}, {volts(loss_v), quiet(m_unit)}});
            wordings.push_back(
                {{nameOf(trace.run->cores.front().size), name}, {volts(loss_v), quiet(m_unit)}});
        } else {
            wordings.push_back({{nameOf(*trace.run), quiet(0.9 * m_unit)}});
        }
        for (const Box& about : stretchesOf(trace)) {
            const bool level = about.width >= about.height;
            const Wish wish{.about = about,
                            .within = m_inner,
                            .gap = 0.35 * m_unit,
                            .reach = is_culprit ? 8 * m_unit : 3 * m_unit,
                            .sides = level ? std::vector<Point>{downwards, upwards, to_right}
                                           : std::vector<Point>{to_right, to_left, upwards}};
            if (placeFirst(m_canvas, wish, wordings))
                return;
        }
    }

    [[nodiscard]] double lossOfPart(const std::string& part) const {
        double lost_v = 0;
        for (const auto* side : {&m_now.battery, &m_now.out, &m_now.back})
            for (const Station& station : *side)
                if (m_now.elementOf(station).part == part)
                    lost_v += station.volts;
        return lost_v;
    }

    void labelParts() {
        m_canvas.begin("names");
        std::vector<const Symbol*> symbols;
        for (const Symbol& symbol : m_layout.symbols)
            symbols.push_back(&symbol);
        std::ranges::stable_sort(symbols, std::greater{}, [&](const Symbol* symbol) {
            return std::pair(symbol->part->id == m_culprit, symbol->box.width * symbol->box.height);
        });
        for (const Symbol* symbol : symbols)
            labelPart(*symbol);
    }

    void labelPart(const Symbol& symbol) {
        const bool is_subject = symbol.part->id == installation().subject;
        const double loss_v = lossOfPart(symbol.part->id);
        std::vector<TextLine> full;
        if (!is_subject)
            full.push_back(
                {shortened(nameOf(*symbol.part), m_unit, false, 13 * m_unit), common(m_unit)});
        if (std::holds_alternative<Battery>(symbol.part->body) && m_now.hasLoop())
            full.push_back(
                {words("{}, of which {} is lost inside", volts(m_now.source_v), volts(loss_v)),
                 quiet(m_unit)});
        else if (loss_v >= 0.005)
            full.push_back({volts(loss_v), quiet(m_unit)});
        if (full.empty())
            return;
        if (symbol.part->id == m_culprit)
            full = {{full.front().text, strong(m_unit)},
                    {words("loses {}", volts(loss_v)), strong(1.35 * m_unit)}};
        std::vector<std::vector<TextLine>> wordings{full};
        if (full.size() > 1) {
            if (std::holds_alternative<Battery>(symbol.part->body))
                wordings.push_back({full.front(),
                                    {words("{},", volts(m_now.source_v)), quiet(m_unit)},
                                    {words("{} lost inside", volts(loss_v)), quiet(m_unit)}});
            else
                wordings.push_back({full.front(), {volts(loss_v), quiet(m_unit)}});
            wordings.push_back({full.front()});
        }
        const Wish wish{.about = symbol.box,
                        .within = m_inner,
                        .gap = 0.35 * m_unit,
                        .reach = 6 * m_unit,
                        .sides = {upwards, downwards, to_right, to_left}};
        placeFirst(m_canvas, wish, wordings);
    }

    void labelJoints() {
        m_canvas.begin("names");
        for (const auto& [loss, place_of] : m_joints) {
            const bool is_culprit = loss->id == m_culprit;
            const std::vector<TextLine> full{
                {loss->name, is_culprit ? strong(m_unit) : common(m_unit)},
                {words("loses {}", volts(loss->volts)),
                 is_culprit ? strong(1.35 * m_unit) : strong(m_unit)}};
            const std::vector<TextLine> brief{{volts(loss->volts), strong(m_unit)}};
            std::vector<TextLine> narrow = wrapped(loss->name, full.front().style, 11 * m_unit);
            narrow.push_back(full.back());
            const Wish wish{.about = Box{place_of.x, place_of.y, 0, 0}.grown(0.6 * m_unit),
                            .within = m_inner,
                            .gap = 0.3 * m_unit,
                            .reach = 9 * m_unit};
            placeFirst(m_canvas, wish, std::vector<std::vector<TextLine>>{full, narrow, brief});
        }
    }

    /// Says so where nothing is left, once: beside the longest such piece.
    void labelEmpty() {
        std::size_t longest = 0;
        for (std::size_t i = 1; i < m_hatched.size(); ++i)
            if (lengthOf(m_hatched[i]) > lengthOf(m_hatched[longest]))
                longest = i;
        if (m_hatched.empty() || m_hatched[longest].size() < 2)
            return;
        const double length = lengthOf(m_hatched[longest]);
        const Style style{m_unit, true, Ink::Warning};
        const std::vector<std::vector<TextLine>> wordings{
            {{words("nothing left above the cut-out here"), style}},
            {{words("nothing left"), style}, {words("above the cut-out"), style}},
            {{words("nothing left"), style}}};
        for (const double share : {0.5, 0.25, 0.75, 0.1, 0.9}) {
            const Point at = pieceOf(m_hatched[longest], 0, share * length).back();
            const Wish wish{.about =
                                Box{at.x, at.y, 0, 0}.grown(m_layout.traces[longest].width / 2),
                            .within = m_inner,
                            .gap = 0.3 * m_unit,
                            .reach = 6 * m_unit,
                            .sides = {downwards, upwards, to_right, to_left}};
            if (placeFirst(m_canvas, wish, wordings))
                return;
        }
    }

    const Site& m_site;
    Canvas& m_canvas;
    double m_unit;
    double m_small = 0; ///< unit of symbols and cables
    const Network& m_network;
    Figures m_now;
    std::vector<Portion> m_portions;
    std::string m_culprit;
    Box m_area;
    Box m_inner;
    PlanLayout m_layout;
    std::vector<std::vector<Point>> m_hatched;
    std::vector<std::pair<const Portion*, Point>> m_joints;
};

} // namespace

void drawPlan(const Site& site) {
    PlanPicture(site).draw();
}

} // namespace ebbline::drawing
