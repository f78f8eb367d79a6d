// SPDX-License-Identifier: MIT
// Names and losses on the plan, each beside its thing.
#include "font.h"
#include "names.h"
#include "placer.h"
#include "plan_scene.h"
#include "potentials.h"
#include "sentences.h"

#include "ebbline/words.h"

#include <algorithm>
#include <tuple>

namespace ebbline::drawing {
namespace {

using Wordings = std::vector<std::vector<TextLine>>;

constexpr double largest = 1.45; // units: the one loss that everyone is to see
constexpr double worth_saying_v = 0.005;

/// The straight stretches of a cable, those with most room for text first.
std::vector<Box> stretchesOf(const Trace& trace) {
    std::vector<Box> boxes;
    for (std::size_t i = 1; i < trace.line.size(); ++i) {
        const auto [left, right] = std::minmax(trace.line[i - 1].x, trace.line[i].x);
        const auto [top, bottom] = std::minmax(trace.line[i - 1].y, trace.line[i].y);
        boxes.push_back(Box{left, top, right - left, bottom - top}.grown(trace.width / 2));
    }
    std::ranges::sort(boxes, std::greater{}, [](const Box& box) {
        // A level stretch has more room for a line of text than an upright one.
        const double room = box.width >= box.height ? 1.5 * box.width : box.height;
        return std::tuple(room, -box.y, -box.x);
    });
    return boxes;
}

class PlanLabels {
public:
    explicit PlanLabels(const PlanScene& plan)
        : m_plan(plan), m_canvas(plan.canvas), m_unit(plan.unit) {}

    void write() {
        m_canvas.begin("names");
        writeCables(Rank::Culprit);
        writeParts(Rank::Culprit);
        writeJoints(Rank::Culprit);
        writeEmpty();
        writeParts(Rank::Important);
        writeJoints(Rank::Important);
        writeCables(Rank::Important);
        writeCables(Rank::Rest);
    }

private:
    enum class Rank { Culprit, Important, Rest };

    [[nodiscard]] Rank rankOf(const std::string& id, double loss_v) const {
        if (id == m_plan.culprit)
            return Rank::Culprit;
        const double small_v = std::max(0.02, 0.1 * m_plan.now.lost());
        return loss_v >= small_v ? Rank::Important : Rank::Rest;
    }

    [[nodiscard]] TextLine name(const std::string& text, bool is_culprit = false) const {
        return {text, is_culprit ? strong(m_unit) : common(m_unit)};
    }
    [[nodiscard]] TextLine largestLoss(double volts_lost) const {
        return {lossWords(volts_lost), strong(largest * m_unit)};
    }

    void writeCables(Rank rank) {
        std::vector<const Trace*> traces;
        for (const Trace& trace : m_plan.layout.traces)
            if (rankOf(trace.run->id, lossOf(m_plan.now, *trace.run)) == rank)
                traces.push_back(&trace);
        std::ranges::sort(traces, {}, [&](const Trace* trace) {
            return std::pair(-lossOf(m_plan.now, *trace->run), trace->run->id);
        });
        for (const Trace* trace : traces)
            writeCable(*trace);
    }

    void writeCable(const Trace& trace) {
        if (trace.role == RunRole::Signal || trace.line.size() < 2)
            return;
        const bool is_culprit = trace.run->id == m_plan.culprit;
        const Wordings wordings = cableWordings(trace, is_culprit);
        for (const Box& about : stretchesOf(trace)) {
            const bool level = about.width >= about.height;
            const Wish wish{.about = about,
                            .within = m_plan.inner,
                            .gap = 0.35 * m_unit,
                            .reach = (is_culprit ? 8 : 3) * m_unit,
                            .sides = level ? std::vector<Point>{downwards, upwards, to_right}
                                           : std::vector<Point>{to_right, to_left, upwards}};
            if (placeFirst(m_canvas, wish, wordings))
                return;
        }
    }

    [[nodiscard]] Wordings cableWordings(const Trace& trace, bool is_culprit) const {
        const std::string full = nameOf(*trace.run);
        const double loss_v = lossOf(m_plan.now, *trace.run);
        const bool in_loop = trace.role != RunRole::Other && m_plan.now.hasLoop();
        if (in_loop && is_culprit)
            return {{name(words("{} one way", full), true), largestLoss(loss_v)},
                    {name(full, true), largestLoss(loss_v)},
                    {largestLoss(loss_v)}};
        if (in_loop && loss_v >= 0.015) {
            const TextLine value{volts(loss_v), quiet(m_unit)};
            Wordings wordings{{name(full), value},
                              {name(nameOf(trace.run->cores.front().size)), value}};
            if (rankOf(trace.run->id, loss_v) == Rank::Important)
                wordings.push_back({value});
            return wordings;
        }
        return {{{full, quiet(0.9 * m_unit)}}};
    }

    [[nodiscard]] double lossOfPart(const std::string& part) const {
        double lost_v = 0;
        for (const auto* side : {&m_plan.now.battery, &m_plan.now.out, &m_plan.now.back})
            for (const Station& station : *side)
                if (m_plan.now.elementOf(station).part == part)
                    lost_v += station.volts;
        return lost_v;
    }

    /// All parts but the fridge, whose name stands in it; the largest first.
    void writeParts(Rank rank) {
        std::vector<const Symbol*> symbols;
        for (const Symbol& symbol : m_plan.layout.symbols) {
            const bool is_culprit = symbol.part->id == m_plan.culprit;
            if (symbol.part->id != m_plan.installation().subject &&
                is_culprit == (rank == Rank::Culprit))
                symbols.push_back(&symbol);
        }
        std::ranges::sort(symbols, {}, [&](const Symbol* symbol) {
            return std::pair(-symbol->box.width * symbol->box.height, symbol->part->id);
        });
        for (const Symbol* symbol : symbols)
            writePart(*symbol);
    }

    void writePart(const Symbol& symbol) {
        const bool is_culprit = symbol.part->id == m_plan.culprit;
        const double loss_v = lossOfPart(symbol.part->id);
        Wordings wordings;
        const auto add = [&](const std::vector<TextLine>& below) {
            std::vector<TextLine> lines = partName(*symbol.part, is_culprit);
            lines.insert(lines.end(), below.begin(), below.end());
            wordings.push_back(std::move(lines));
        };
        const auto quietly = [&](const std::string& text) { return TextLine{text, quiet(m_unit)}; };
        const bool is_battery = std::holds_alternative<Battery>(symbol.part->body);
        if (is_culprit) {
            add({largestLoss(loss_v)});
            wordings.push_back({largestLoss(loss_v)});
        }
        if (is_battery && m_plan.now.hasLoop()) {
            const std::string source = volts(m_plan.now.source_v);
            const bool charging = loss_v < -worth_saying_v;
            const std::string inside =
                charging ? words("is charged") : words("{} lost inside", volts(loss_v));
            if (!is_culprit)
                add({quietly(source + ", " + inside)});
            add({quietly(source), quietly(inside)});
            add({quietly(source)});
        } else if (loss_v >= worth_saying_v) {
            add({quietly(volts(loss_v))});
        }
        add({});
        const Wish wish{.about = symbol.box,
                        .within = m_plan.inner,
                        .gap = 0.35 * m_unit,
                        .reach = 7 * m_unit,
                        .sides = {upwards, downwards, to_right, to_left}};
        placeFirst(m_canvas, wish, wordings);
    }

    /// In two lines where one would be long.
    [[nodiscard]] std::vector<TextLine> partName(const Part& part, bool is_culprit) const {
        const std::string text = nameOf(part);
        const Style style = name("", is_culprit).style;
        const double most = 14 * m_unit;
        std::vector<TextLine> lines = wrapped(text, style, most);
        if (lines.size() > 2)
            lines = {{shortened(text, style.size, style.bold, most), style}};
        return lines;
    }

    void writeJoints(Rank rank) {
        for (const JointMark& mark : m_plan.joints) {
            const bool is_culprit = mark.loss->id == m_plan.culprit;
            if (is_culprit != (rank == Rank::Culprit))
                continue;
            const TextLine title = name(mark.loss->name, is_culprit);
            const TextLine value = is_culprit
                                       ? largestLoss(mark.loss->volts)
                                       : TextLine{lossWords(mark.loss->volts), strong(m_unit)};
            std::vector<TextLine> narrow = wrapped(title.text, title.style, 11 * m_unit);
            narrow.push_back(value);
            const Wish wish{.about = Box{mark.at.x, mark.at.y, 0, 0}.grown(0.6 * m_unit),
                            .within = m_plan.inner,
                            .gap = 0.3 * m_unit,
                            .reach = 9 * m_unit};
            placeFirst(m_canvas, wish, Wordings{{title, value}, narrow, {value}});
        }
    }

    /// A single conductor has nothing left either where the other one takes it.
    [[nodiscard]] bool isLostOnTheWayBack(const Run& run) const {
        const Figures& now = m_plan.now;
        return run.cores.size() == 1 && now.backLoss() > now.outLoss() &&
               std::ranges::any_of(now.out, [&](const Station& station) {
                   return now.elementOf(station).part == run.id;
               });
    }

    /// Says so where nothing is left, once: beside the longest such piece.
    void writeEmpty() {
        if (m_plan.hatched.empty())
            return;
        const auto longest = std::ranges::max_element(
            m_plan.hatched, {}, [](const std::vector<Point>& piece) { return lengthOf(piece); });
        if (longest->size() < 2)
            return;
        const auto index = static_cast<std::size_t>(longest - m_plan.hatched.begin());
        const Style style{m_unit, true, Ink::Warning};
        Wordings wordings{{{words("nothing left above the cut-out here"), style}},
                          {{words("nothing left"), style}, {words("above the cut-out"), style}},
                          {{words("nothing left"), style}}};
        if (isLostOnTheWayBack(*m_plan.layout.traces[index].run))
            wordings.insert(wordings.begin(),
                            {{words("nothing left above the cut-out here:"), style},
                             {words("it is lost on the way back, not in this cable"), style}});
        const double length = lengthOf(*longest);
        for (const double share : {0.5, 0.25, 0.75, 0.1, 0.9}) {
            const Point at = pieceOf(*longest, 0, share * length).back();
            const Wish wish{.about =
                                Box{at.x, at.y, 0, 0}.grown(m_plan.layout.traces[index].width / 2),
                            .within = m_plan.inner,
                            .gap = 0.3 * m_unit,
                            .reach = 6 * m_unit,
                            .sides = {downwards, upwards, to_right, to_left}};
            if (placeFirst(m_canvas, wish, wordings))
                return;
        }
    }

    const PlanScene& m_plan;
    Canvas& m_canvas;
    double m_unit;
};

} // namespace

void labelPlan(const PlanScene& plan) {
    PlanLabels(plan).write();
}

} // namespace ebbline::drawing
