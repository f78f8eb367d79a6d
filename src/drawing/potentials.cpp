// SPDX-License-Identifier: MIT
// What is left above the cut-out along each cable of the supply loop.
#include "potentials.h"

#include "ebbline/error.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

/// Loss of one side up to the near and the far end of a run's conductor, from the battery on.
struct Span {
    double near_v = 0;
    double far_v = 0;
    int sign = 1; ///< +1: the near end is the run's `from`
};

std::optional<Span> findSpan(const Figures& figures,
                             const std::vector<Station>& side,
                             const std::vector<Step>& way,
                             const Run& run) {
    double lost_v = 0;
    for (const Station& station : side) {
        const Element& element = figures.elementOf(station);
        if (element.kind == ElementKind::Conductor && element.part == run.id) {
            const auto step = std::ranges::find(way, station.element, &Step::element);
            return Span{lost_v, lost_v + station.volts, step == way.end() ? 1 : step->sign};
        }
        lost_v += station.volts;
    }
    return std::nullopt;
}

} // namespace

std::optional<double> Fill::emptyFrom() const {
    const double fuller = std::max(from, to);
    const double emptier = std::min(from, to);
    if (emptier > 0)
        return std::nullopt;
    return fuller <= 0 ? 0 : fuller / (fuller - emptier);
}

std::optional<Fill> fillOf(const Figures& figures, const Trace& trace) {
    if (!figures.hasLoop() || (trace.role != RunRole::Twin && trace.role != RunRole::Plus))
        return std::nullopt;
    EBBLINE_ASSERT(figures.network->loop.has_value(), "what is left is that of a supply loop");
    const SupplyLoop& loop = *figures.network->loop;
    const auto plus = findSpan(figures, figures.out, loop.out, *trace.run);
    if (!plus)
        return std::nullopt;
    double inside_v = 0;
    for (const Station& station : figures.battery)
        inside_v += station.volts;
    const double rest_v = figures.source_v - figures.cut_out_v;
    if (rest_v <= 0)
        return Fill{0, 0};
    double near_v = rest_v - inside_v - plus->near_v;
    double far_v = rest_v - inside_v - plus->far_v;
    if (const auto minus = findSpan(figures, figures.back, loop.back, *trace.run)) {
        near_v -= minus->near_v;
        far_v -= minus->far_v;
    } else {
        near_v -= figures.backLoss();
        far_v -= figures.backLoss();
    }
    const Fill fill{near_v / rest_v, far_v / rest_v};
    return plus->sign > 0 ? fill : Fill{fill.to, fill.from};
}

double lossOf(const Figures& figures, const Run& run) {
    double lost_v = 0;
    for (const auto* side : {&figures.out, &figures.back})
        for (const Station& station : *side) {
            const Element& element = figures.elementOf(station);
            if (element.kind == ElementKind::Conductor && element.part == run.id)
                lost_v += station.volts;
        }
    return lost_v;
}

} // namespace ebbline::drawing
