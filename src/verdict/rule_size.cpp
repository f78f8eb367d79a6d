// SPDX-License-Identifier: MIT
// The conductor size that the drop limit asks for, or the next thicker one can buy.
#include "rule_reference.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>

namespace ebbline::verdict {
namespace {

constexpr double default_limit_pct = 3;

/// Sizes one can buy in the scale and class of a conductor, from thin to thick.
std::vector<Size> sizesOf(const Facts& facts, const Conductor& conductor) {
    static constexpr std::array<double, 14> gauges{
        18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3};
    std::vector<Size> sizes;
    if (conductor.size.scale != SizeScale::Mm2) {
        for (const double gauge : gauges)
            sizes.push_back({conductor.size.scale, gauge});
    } else if (const auto by_class = facts.catalogues.conductors.find(conductor.material);
               by_class != facts.catalogues.conductors.end()) {
        for (const auto& [area_mm2, mohm_per_m] : by_class->second)
            sizes.push_back({SizeScale::Mm2, area_mm2});
    }
    return sizes;
}

double ohmPerMetre(const Facts& facts, const Conductor& conductor, const Size& size) {
    const auto mohm = network::conductorMohmPerM(size, conductor.material, facts.catalogues);
    return network::conductorOhm(mohm.value_or(0), 1, facts.drawn().surroundings.ambient_c);
}

double limitPct(const Facts& facts) {
    return facts.settings.drop ? facts.settings.drop->limit_pct : default_limit_pct;
}

/// Ohms per metre at which the conductors of the whole loop together keep the limit.
double allowedOhmPerMetre(const Facts& facts, double amps) {
    double length_m = 0;
    for (const auto& way : {facts.out(), facts.back()})
        for (const Conductor& conductor : facts.conductors(way))
            length_m += conductor.length_m;
    return limitPct(facts) / 100 * facts.drawn().nominal_v / (amps * length_m);
}

/// With the reason for that size: whoever reads of a thinner one that starts must know what this
/// one is for.
std::string
remedyWords(const Facts& facts, const std::string& sizes, bool wants_next, bool keeps_limit) {
    const std::string limit_pct = text::figure(limitPct(facts));
    if (wants_next)
        return words("{}, the next size.", sizes);
    return keeps_limit
               ? words("{}, the first that keeps a {} % drop.", sizes, limit_pct)
               : words("{}, the thickest there is, still above a {} % drop.", sizes, limit_pct);
}

} // namespace

Reference findSizeReference(const Facts& facts,
                            const Conductor& conductor,
                            const Element& element,
                            double amps) {
    Reference reference{.basis = Basis::Standard};
    if (conductor.length_m <= 0 || element.ohm <= 0)
        return reference;
    if (const Run* run = facts.drawn().findRun(element.part); run != nullptr && run->broken_pct > 0)
        return {.avoidable_share = run->broken_pct / 100,
                .basis = Basis::Measured,
                .remedy = words("Renew {}: {} % of its strands are broken.",
                                element.part,
                                text::figure(run->broken_pct))};
    const double own_ohm = element.ohm / conductor.length_m;
    const double allowed_ohm = allowedOhmPerMetre(facts, facts.runningAmps().value_or(amps));
    const bool wants_next = own_ohm <= allowed_ohm;
    if (wants_next && facts.evidence.verdict.margin == Margin::Clear)
        return reference;
    std::optional<Size> chosen;
    double chosen_ohm = own_ohm;
    for (const Size& size : sizesOf(facts, conductor)) {
        const double ohm = ohmPerMetre(facts, conductor, size);
        if (ohm >= own_ohm * (1 - 1e-9))
            continue;
        chosen = size;
        chosen_ohm = ohm;
        reference.avoidable_share = 1 - ohm / own_ohm;
        if (wants_next || ohm <= allowed_ohm)
            break;
    }
    if (chosen)
        reference.remedy = remedyWords(facts,
                                       words("Lay {} instead of {} for {}",
                                             network::sizeWords(*chosen),
                                             network::sizeWords(conductor.size),
                                             element.part),
                                       wants_next,
                                       chosen_ohm <= allowed_ohm);
    return reference;
}

} // namespace ebbline::verdict
