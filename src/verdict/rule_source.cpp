// SPDX-License-Identifier: MIT
// What batteries and chargers feed into a short circuit, by published resistances.
#include "rule_source.h"

#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::verdict {
namespace {

/// Nodes that wiring joins to one, fuses and switches taken as closed.
std::vector<bool> joinedTo(const Network& network, int node) {
    std::vector<bool> joined(network.nodes.size(), false);
    joined[static_cast<std::size_t>(node)] = true;
    for (bool grew = true; grew;) {
        grew = false;
        for (const Element& element : network.elements) {
            const auto from = static_cast<std::size_t>(element.from);
            const auto to = static_cast<std::size_t>(element.to);
            if (element.kind > ElementKind::Breaker || joined[from] == joined[to])
                continue;
            joined[from] = joined[to] = grew = true;
        }
    }
    return joined;
}

const Battery& batteryOf(const Facts& facts, const Element& element) {
    return std::get<Battery>(facts.drawn().findPart(element.part)->body);
}

const BatteryFault* findTable(const Facts& facts, const Battery& battery) {
    const auto entry = facts.tables().batteries.find(battery.chemistry);
    return entry == facts.tables().batteries.end() ? nullptr : &entry->second;
}

double ohmOf(double mohm_ah, const Battery& battery) {
    return mohm_ah * 1e-3 * battery.nominal_v / 12 / battery.capacity_ah;
}

} // namespace

std::optional<Source> findStrongestSource(const Facts& facts) {
    const Element& first = facts.element(facts.loop().battery);
    const std::vector<bool> joined = joinedTo(facts.network, first.to);
    Source source;
    double siemens = 0;
    for (const Element& element : facts.network.elements) {
        if (!joined[static_cast<std::size_t>(element.to)])
            continue;
        if (element.kind == ElementKind::Charger)
            source.extra_a +=
                std::get<Charger>(facts.drawn().findPart(element.part)->body).current_a;
        if (element.kind != ElementKind::Battery)
            continue;
        const Battery& battery = batteryOf(facts, element);
        const BatteryFault* table = findTable(facts, battery);
        if (table == nullptr)
            return std::nullopt;
        source.volts = std::max(source.volts, table->full_v * battery.nominal_v / 12);
        siemens += 1 / ohmOf(table->least_mohm_ah, battery);
        source.text = table->source.text;
        source.unchecked = source.unchecked || table->source.from_memory;
    }
    source.ohm = 1 / siemens;
    return source;
}

std::optional<Source> findWeakestSource(const Facts& facts) {
    const Battery& battery = batteryOf(facts, facts.element(facts.loop().battery));
    const BatteryFault* table = findTable(facts, battery);
    if (table == nullptr)
        return std::nullopt;
    return Source{.volts = table->flat_v * battery.nominal_v / 12,
                  .ohm = ohmOf(table->greatest_mohm_ah, battery) * (1 + battery.age_pct / 100),
                  .text = table->source.text,
                  .unchecked = table->source.from_memory};
}

std::string whyNoSource(const Facts& facts) {
    return words(
        "The inner resistance of a '{}' battery, or of another beside it, stands in no table.",
        batteryOf(facts, facts.element(facts.loop().battery)).chemistry);
}

const FuseKind* findFuseKind(const Facts& facts, int fuse) {
    const Part* part = facts.drawn().findPart(facts.element(fuse).part);
    const auto* own = part == nullptr ? nullptr : std::get_if<Fuse>(&part->body);
    const auto kind = facts.tables().fuses.find(own == nullptr ? Fuse{}.style : own->style);
    return kind == facts.tables().fuses.end() || kind->second.limits.empty() ? nullptr
                                                                             : &kind->second;
}

} // namespace ebbline::verdict
