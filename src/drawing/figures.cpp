// SPDX-License-Identifier: MIT
// The numbers behind the pictures: the supply loop at one moment.
#include "figures.h"

#include <algorithm>
#include <numeric>

namespace ebbline::drawing {
namespace {

double sumOf(const std::vector<Station>& stations) {
    return std::accumulate(stations.begin(),
                           stations.end(),
                           0.0,
                           [](double sum, const Station& station) { return sum + station.volts; });
}

/// Share of an element's loss that need not be, as found at the lowest moment.
double shareOf(const Moment& moment, const std::string& element) {
    for (const Loss& loss : moment.inquiry.losses)
        if (loss.element == element && loss.volts > 0)
            return loss.avoidable_v / loss.volts;
    return 0;
}

} // namespace

double Figures::outLoss() const {
    return sumOf(out);
}
double Figures::backLoss() const {
    return sumOf(back);
}
double Figures::lost() const {
    return sumOf(battery) + outLoss() + backLoss();
}
const Element& Figures::elementOf(const Station& station) const {
    return network->elements[static_cast<std::size_t>(station.element)];
}

Figures figuresAt(const Moment& moment, const Start& start, double at_s) {
    const Network& network = moment.examination().network;
    const Frame frame = start::frameAt(start, at_s);
    Figures figures{.network = &network,
                    .at_s = frame.at_s,
                    .source_v = frame.source_v,
                    .amps = frame.amps[static_cast<std::size_t>(network.subject())],
                    .cut_out_v = moment.examination().verdict.cut_out_v};
    if (start.outcome == Outcome::FuseOpens)
        figures.opening = moment.inquiry.headline.element;
    if (!network.loop)
        return figures;
    figures.reversed = network.loop->reversed;
    const auto station = [&](int element, int sign, Side side) {
        const auto index = static_cast<std::size_t>(element);
        Station result{element, side, sign * frame.volts[index], sign * frame.amps[index], 0};
        result.avoidable_v = shareOf(moment, network.elements[index].name) * result.volts;
        return result;
    };
    figures.battery.push_back(station(network.loop->battery, +1, Side::Source));
    for (const Step& step : network.loop->out)
        figures.out.push_back(station(step.element, step.sign, Side::Out));
    for (const Step& step : network.loop->back)
        figures.back.push_back(station(step.element, step.sign, Side::Back));
    std::ranges::reverse(figures.back);
    return figures;
}

double tellingMoment(const Start& start) {
    if (start.lowest_at_s)
        return *start.lowest_at_s;
    // Nothing was tried: shortly after the last thing that happened nothing changes any more.
    const double last_s = start.events.empty() ? 0 : start.events.back().at_s;
    return std::min(std::max(last_s, 0.0) + 1, start.horizon_s);
}

} // namespace ebbline::drawing
