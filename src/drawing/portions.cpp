// SPDX-License-Identifier: MIT
// Losses by thing: a run with all its cores, a joint, a part.
#include "figures.h"
#include "names.h"

#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

constexpr double worth_naming_v = 0.02;      // avoidable, or lost in all
constexpr double worth_naming_share = 0.035; // of all that is lost

class Collector {
public:
    explicit Collector(const Figures& figures) : m_figures(figures) {
        for (const auto* side : {&figures.battery, &figures.out, &figures.back})
            for (const Station& station : *side)
                add(station);
    }

    [[nodiscard]] std::vector<Portion> finish() {
        std::vector<Portion> named;
        Portion rest{.kind = PortionKind::Rest};
        int count = 0;
        const double small_v = std::max(worth_naming_v, worth_naming_share * m_figures.lost());
        for (Portion& loss : m_portions) {
            if (loss.avoidable_v >= worth_naming_v || loss.volts >= small_v) {
                named.push_back(std::move(loss));
                continue;
            }
            rest.volts += loss.volts;
            rest.avoidable_v += loss.avoidable_v;
            ++count;
        }
        std::ranges::sort(named, {}, [](const Portion& portion) {
            return std::pair(-portion.volts, portion.id);
        });
        rest.name = rest.volts < -0.005 ? words("a charging source lifts the rest by")
                    : count == 1        ? words("one more part")
                                        : words("{} more joints and parts", count);
        if (count > 0)
            named.push_back(std::move(rest));
        return named;
    }

private:
    [[nodiscard]] const Installation& installation() const {
        return m_figures.network->installation;
    }

    void add(const Station& station) {
        const Element& element = m_figures.elementOf(station);
        const bool is_joint = findJoint(installation(), element.name).has_value();
        const Run* run = installation().findRun(element.part);
        const std::string id = is_joint && run != nullptr ? element.name : element.part;
        const auto place = std::ranges::find(m_portions, id, &Portion::id);
        Portion& loss = place == m_portions.end() ? m_portions.emplace_back() : *place;
        loss.volts += station.volts;
        loss.avoidable_v += station.avoidable_v;
        if (!loss.id.empty())
            return;
        loss.id = id;
        if (element.kind == ElementKind::Battery) {
            loss.kind = PortionKind::Battery;
            loss.name = words("inside the battery");
        } else if (run != nullptr) {
            loss.kind = is_joint ? PortionKind::Joint : PortionKind::Cable;
            loss.name = is_joint ? nameOfJoint(installation(), id) : nameOf(*run);
        } else if (const Part* part = installation().findPart(element.part)) {
            loss.name = nameOf(*part);
        }
    }

    const Figures& m_figures;
    std::vector<Portion> m_portions;
};

} // namespace

std::vector<Portion> findPortions(const Figures& figures) {
    return Collector(figures).finish();
}

const Portion* findCulprit(const Figures& figures, const std::vector<Portion>& portions) {
    const Portion* culprit = nullptr;
    for (const Portion& loss : portions)
        if (loss.kind != PortionKind::Rest && loss.id == figures.opening)
            return &loss;
    for (const Portion& loss : portions)
        if (loss.kind != PortionKind::Rest && loss.avoidable_v >= worth_naming_v &&
            (culprit == nullptr || loss.avoidable_v > culprit->avoidable_v))
            culprit = &loss;
    if (culprit != nullptr)
        return culprit;
    for (const Portion& loss : portions)
        if (loss.kind != PortionKind::Rest && loss.kind != PortionKind::Battery &&
            loss.volts >= 0.005 && (culprit == nullptr || loss.volts > culprit->volts))
            culprit = &loss;
    return culprit;
}

} // namespace ebbline::drawing
