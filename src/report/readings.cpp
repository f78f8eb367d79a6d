// SPDX-License-Identifier: MIT
// What a meter shows at the numbered places of the supply loop.
#include "readings.h"

#include "ebbline/drawing.h"
#include "ebbline/error.h"

#include <algorithm>
#include <numeric>

namespace ebbline::report {
namespace {

constexpr double as_good_as_v = 0.002; // between two places that lose the same
constexpr double worth_naming_v = 0.005;

std::size_t findElement(const Network& network, const std::string& name) {
    const auto place = std::ranges::find(network.elements, name, &Element::name);
    EBBLINE_ASSERT(place != network.elements.end(), "both networks are of the same drawing");
    return static_cast<std::size_t>(place - network.elements.begin());
}

} // namespace

double Readings::lost() const {
    return std::accumulate(lost_v.begin(), lost_v.end(), 0.0);
}

Readings readPlaces(const Examination& examination,
                    const Network& network,
                    std::span<const MeterPlace> places) {
    const Start& start = examination.start;
    const Network& run = examination.network;
    const Frame frame =
        start::frameAt(start, start.ledger ? start.ledger->at_s : drawing::tellingMoment(start));
    Readings readings{.fridge_v = frame.controller_v,
                      .fridge_a = frame.amps[static_cast<std::size_t>(run.subject())]};
    for (const MeterPlace& place : places) {
        double lost_v = 0;
        for (const Step& step : place.steps) {
            const auto& name = network.elements[static_cast<std::size_t>(step.element)].name;
            lost_v += step.sign * frame.volts[findElement(run, name)];
        }
        const Step& first = place.steps.front();
        const auto& name = network.elements[static_cast<std::size_t>(first.element)].name;
        readings.lost_v.push_back(lost_v);
        readings.amps.push_back(first.sign * frame.amps[findElement(run, name)]);
    }
    const bool reversed = network.loop && network.loop->reversed;
    readings.rest_v = readings.lost() + (reversed ? -frame.controller_v : frame.controller_v);
    return readings;
}

std::vector<int> findMost(const Readings& readings) {
    std::vector<int> most;
    if (readings.lost_v.empty())
        return most;
    const double most_v = *std::ranges::max_element(readings.lost_v);
    for (std::size_t i = 0; i < readings.lost_v.size(); ++i)
        if (most_v >= worth_naming_v && readings.lost_v[i] > most_v - as_good_as_v)
            most.push_back(static_cast<int>(i) + 1);
    return most;
}

} // namespace ebbline::report
