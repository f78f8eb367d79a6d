// SPDX-License-Identifier: MIT
// Parts on a bench: a source and consumers without anything between them.
#include "bench.h"

#include <utility>

namespace ebbline::study {

Network
bench(const Installation& about, Part source, ElementKind kind, std::vector<Part> consumers) {
    Network made;
    made.installation.nominal_v = about.nominal_v;
    made.installation.surroundings = about.surroundings;
    made.installation.subject = about.subject;
    made.nodes = {"minus", "plus"};
    made.islands = {0, 0};
    made.elements.push_back(
        {.name = source.id, .kind = kind, .from = 0, .to = 1, .linear = false, .part = source.id});
    made.installation.parts.push_back(std::move(source));
    for (Part& part : consumers) {
        const bool is_load = std::holds_alternative<Load>(part.body);
        made.elements.push_back({.name = part.id,
                                 .kind = is_load ? ElementKind::Load : ElementKind::Controller,
                                 .from = 1,
                                 .to = 0,
                                 .linear = false,
                                 .part = part.id});
        made.installation.parts.push_back(std::move(part));
    }
    return made;
}

Part stiffSupply(double volts) {
    return {.id = "supply",
            .body = Charger{.voltage_v = volts, .current_a = 500, .resistance_mohm = 1}};
}

Controller hastened(Controller unit) {
    constexpr double build_s = 5;
    unit.bleed_s *= build_s / unit.build_s;
    unit.build_s = build_s;
    unit.retry_s = 10; // with the attempts of a steady run: eight times build_s
    unit.pressure_pct = 0;
    return unit;
}

Netlist steadyRun(const Installation& about, const Models& models, Part unit, double volts) {
    constexpr int attempts = 4;
    auto& body = std::get<Controller>(unit.body);
    body = hastened(body);
    body.cut_in_v = body.cut_in_24_v = 1;
    return netlist::build(bench(about, stiffSupply(volts), ElementKind::Charger, {std::move(unit)}),
                          models,
                          {.accuracy = Accuracy::Smooth, .held_off = true, .attempts = attempts});
}

} // namespace ebbline::study
