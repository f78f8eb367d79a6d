// SPDX-License-Identifier: MIT
// A survey as JSON. What is not there is null, never 0.
#include "survey_names.h"

#include "ebbline/report.h"

#include <nlohmann/json.hpp>

namespace ebbline::report {
namespace {

using Json = nlohmann::ordered_json;

Json orNull(const std::optional<double>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json islandRows(const Network& network, const Survey& survey) {
    Json rows = Json::array();
    for (const Island& island : survey.islands) {
        Json terminals = Json::array();
        for (const int node : island.nodes)
            terminals.push_back(network.nodes[static_cast<std::size_t>(node)]);
        rows.push_back({{"holds_fridge", island.holds_fridge},
                        {"holds_source", island.holds_source},
                        {"terminals", terminals}});
    }
    return rows;
}

Json loopObject(const Network& network, const std::optional<SupplyLoop>& loop) {
    if (!loop)
        return nullptr;
    double ohms = 0;
    for (const auto* way : {&loop->out, &loop->back})
        for (const Step& step : *way)
            ohms += elementOf(network, step.element).ohm;
    return {{"source", elementOf(network, loop->battery).name},
            {"reversed", loop->reversed},
            {"ohms", ohms},
            {"out", namesOf(network, elementsOf(loop->out))},
            {"back", namesOf(network, elementsOf(loop->back))}};
}

Json parallelRows(const Network& network, const Survey& survey) {
    Json rows = Json::array();
    for (const ParallelWays& ways : survey.parallels) {
        Json between = Json::array();
        for (const int node : ways.nodes)
            between.push_back(network.nodes[static_cast<std::size_t>(node)]);
        rows.push_back({{"elements", namesOf(network, ways.elements)}, {"between", between}});
    }
    return rows;
}

Json protectionRows(const Network& network, const Survey& survey) {
    Json rows = Json::array();
    for (const Protection& protection : survey.protections) {
        const Element& element = elementOf(network, protection.element);
        Json thinnest = nullptr;
        if (protection.thinnest)
            thinnest = {{"conductor", elementOf(network, *protection.thinnest).name},
                        {"area_mm2", elementOf(network, *protection.thinnest).area_mm2}};
        rows.push_back({{"element", element.name},
                        {"kind", element.kind == ElementKind::Fuse ? "fuse" : "breaker"},
                        {"rating_a", orNull(protection.rating_a)},
                        {"protects", namesOf(network, protection.protects)},
                        {"thinnest", thinnest},
                        {"feeds", namesOf(network, protection.feeds)}});
    }
    return rows;
}

Json unfusedRows(const Network& network, const Survey& survey) {
    Json rows = Json::array();
    for (const Unfused& unfused : survey.unfused) {
        const Element& conductor = elementOf(network, unfused.element);
        rows.push_back({{"conductor", conductor.name},
                        {"area_mm2", conductor.area_mm2},
                        {"length_m", orNull(lengthOf(network, conductor))},
                        {"source", elementOf(network, unfused.source).name}});
    }
    return rows;
}

Json sharingRows(const Network& network, const Survey& survey) {
    Json rows = Json::array();
    for (const Sharing& sharing : survey.sharings)
        rows.push_back({{"consumer", elementOf(network, sharing.consumer).name},
                        {"out", namesOf(network, sharing.out)},
                        {"back", namesOf(network, sharing.back)}});
    return rows;
}

Json openRows(const Survey& survey) {
    Json rows = Json::array();
    for (const OpenEnd& end : survey.open_ends)
        rows.push_back({{"kind", nameOf(end.kind)}, {"name", end.name}});
    return rows;
}

Json misplacedRows(const Network& network, const Survey& survey) {
    Json rows = Json::array();
    for (const Misplaced& place : survey.misplaced)
        rows.push_back({{"element", elementOf(network, place.element).name},
                        {"plus_on_minus", place.plus_on_minus},
                        {"minus_on_plus", place.minus_on_plus}});
    return rows;
}

} // namespace

std::string writeSurveyJson(const Network& network, const Survey& survey) {
    const Json object = {
        {"title", network.installation.title},
        {"subject", network.installation.subject},
        {"loop", loopObject(network, survey.loop)},
        {"interruptions", namesOf(network, survey.interruptions)},
        {"call_closed", survey.call_closed ? Json(*survey.call_closed) : Json(nullptr)},
        {"protections", protectionRows(network, survey)},
        {"unfused", unfusedRows(network, survey)},
        {"behind_several", namesOf(network, survey.behind_several)},
        {"sharings", sharingRows(network, survey)},
        {"parallels", parallelRows(network, survey)},
        {"bridges", namesOf(network, survey.bridges)},
        {"open_ends", openRows(survey)},
        {"misplaced", misplacedRows(network, survey)},
        {"shorted", namesOf(network, survey.shorted)},
        {"islands", islandRows(network, survey)},
    };
    return object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace ebbline::report
