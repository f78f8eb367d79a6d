// SPDX-License-Identifier: MIT
// The supply loop as places that a meter's two leads can be held across.
#include "ebbline/places.h"

#include <optional>

namespace ebbline::network {
namespace {

/// Where the end of a run lies that an element is the joint of.
std::optional<Terminal> findEnd(const Network& network, const Element& element) {
    const Run* run = network.installation.findRun(element.part);
    if (run == nullptr)
        return std::nullopt;
    for (std::size_t core = 0; core < run->cores.size(); ++core) {
        if (run->endName(core, "from") == element.name)
            return run->cores[core].from;
        if (run->endName(core, "to") == element.name)
            return run->cores[core].to;
    }
    return std::nullopt;
}

MeterPlace placeOf(const Network& network, const Step& step, bool on_plus_side) {
    const Element& element = network.elements[static_cast<std::size_t>(step.element)];
    MeterPlace place{.on_plus_side = on_plus_side, .owner = element.part, .steps = {step}};
    if (element.kind == ElementKind::Conductor)
        return place;
    place.kind = PlaceKind::Device;
    if (const auto end = findEnd(network, element)) {
        place.kind = PlaceKind::Joint;
        place.owner = end->part;
        place.terminal = *end;
    }
    return place;
}

/// Joints and contacts that follow one another at the same part are measured in one.
bool belongTogether(const MeterPlace& one, const MeterPlace& other) {
    return one.owner == other.owner && one.kind != PlaceKind::Conductor &&
           other.kind != PlaceKind::Conductor;
}

std::vector<MeterPlace>
placesAlong(const Network& network, const std::vector<Step>& way, bool on_plus_side) {
    std::vector<MeterPlace> places;
    for (const Step& step : way) {
        MeterPlace next = placeOf(network, step, on_plus_side);
        if (places.empty() || !belongTogether(places.back(), next)) {
            places.push_back(std::move(next));
            continue;
        }
        places.back().steps.push_back(step);
        if (next.kind == PlaceKind::Device)
            places.back().kind = PlaceKind::Device;
    }
    return places;
}

} // namespace

std::vector<MeterPlace> findPlaces(const Network& network) {
    if (!network.loop)
        return {};
    const SupplyLoop& loop = *network.loop;
    const Element& battery = network.elements[static_cast<std::size_t>(loop.battery)];
    std::vector<MeterPlace> places{
        {.kind = PlaceKind::Battery, .owner = battery.part, .steps = {{loop.battery, +1}}}};
    for (const bool on_plus_side : {true, false})
        for (MeterPlace& place :
             placesAlong(network, on_plus_side ? loop.out : loop.back, on_plus_side))
            places.push_back(std::move(place));
    return places;
}

} // namespace ebbline::network
