// SPDX-License-Identifier: MIT
// Which side everything lies on: plus and minus exchanged, joined, or closed through the call.
#include "survey_steps.h"

#include <algorithm>

namespace ebbline::network {
namespace {

/// Whether any of these sources has its plus, or minus, joined to a node by wiring.
bool isOn(const Surveyed& surveyed, int node, int (*post)(const Element&), int but) {
    return std::ranges::any_of(surveyed.sources, [&](int source) {
        return source != but && surveyed.blocks.areJoined(node, post(surveyed.element(source)));
    });
}

bool onlyMinus(const Surveyed& surveyed, int node, int but) {
    return isOn(surveyed, node, minusOf, but) && !isOn(surveyed, node, plusOf, but);
}
bool onlyPlus(const Surveyed& surveyed, int node, int but) {
    return isOn(surveyed, node, plusOf, but) && !isOn(surveyed, node, minusOf, but);
}

Misplaced placeOf(const Surveyed& surveyed, int index) {
    const Element& element = surveyed.element(index);
    return {index,
            onlyMinus(surveyed, plusOf(element), index),
            onlyPlus(surveyed, minusOf(element), index)};
}

std::optional<bool> findCall(const Surveyed& surveyed) {
    const std::string& subject = surveyed.network.installation.subject;
    const auto call = surveyed.network.findNode({subject, "call"});
    const auto back = surveyed.network.findNode({subject, "call-return"});
    if (!call && !back)
        return std::nullopt;
    return call && back && surveyed.blocks.areJoined(*call, *back);
}

} // namespace

void findPolarity(const Surveyed& surveyed, Survey& survey) {
    survey.call_closed = findCall(surveyed);
    for (const int consumer : surveyed.consumers)
        if (const Misplaced place = placeOf(surveyed, consumer);
            place.plus_on_minus || place.minus_on_plus)
            survey.misplaced.push_back(place);
    for (const int source : surveyed.sources) {
        const Element& element = surveyed.element(source);
        if (surveyed.blocks.areJoined(element.from, element.to))
            survey.shorted.push_back(source);
        // One end alone is how batteries stand in a row.
        if (const Misplaced place = placeOf(surveyed, source);
            place.plus_on_minus && place.minus_on_plus)
            survey.misplaced.push_back(place);
    }
    std::ranges::sort(survey.misplaced, {}, &Misplaced::element);
    std::ranges::sort(survey.shorted);
}

} // namespace ebbline::network
