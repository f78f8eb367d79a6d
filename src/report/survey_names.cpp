// SPDX-License-Identifier: MIT
// Names and lengths of what a survey points at.
#include "survey_names.h"

namespace ebbline::report {

const Element& elementOf(const Network& network, int index) {
    return network.elements[static_cast<std::size_t>(index)];
}

std::vector<std::string> namesOf(const Network& network, std::span<const int> elements) {
    std::vector<std::string> names;
    for (const int index : elements)
        names.push_back(elementOf(network, index).name);
    return names;
}

std::vector<int> elementsOf(std::span<const Step> way) {
    std::vector<int> elements;
    for (const Step& step : way)
        elements.push_back(step.element);
    return elements;
}

std::optional<double> lengthOf(const Network& network, const Element& conductor) {
    if (const Run* run = network.installation.findRun(conductor.part))
        return run->length();
    const Part* part = network.installation.findPart(conductor.part);
    const auto* leads = part == nullptr ? nullptr : std::get_if<BenchLeads>(&part->body);
    return leads == nullptr ? std::nullopt : std::optional(leads->length_m);
}

Size sizeOf(const Network& network, const Element& conductor) {
    if (const Run* run = network.installation.findRun(conductor.part))
        for (std::size_t core = 0; core < run->cores.size(); ++core)
            if (run->coreName(core) == conductor.name)
                return run->cores[core].size;
    return {SizeScale::Mm2, conductor.area_mm2};
}

} // namespace ebbline::report
