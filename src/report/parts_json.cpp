// SPDX-License-Identifier: MIT
// What can be drawn and what it can be made of, as JSON.
#include "parts_units.h"

#include "ebbline/report.h"

#include <nlohmann/json.hpp>

namespace ebbline::report {
namespace {

using Json = nlohmann::ordered_json;

Json asJson(const Value& value) {
    return std::visit([](const auto& held) { return Json(held); }, value);
}

Json asJson(const std::map<std::string, Value>& values) {
    Json object = Json::object();
    for (const auto& [key, value] : values)
        object[key] = asJson(value);
    return object;
}

Json conductorRows(const Catalogues& catalogues) {
    Json rows = Json::array();
    for (const auto& [name, sizes] : catalogues.conductors)
        for (const auto& [area_mm2, mohm_per_m] : sizes)
            rows.push_back(
                {{"conductor", name}, {"area_mm2", area_mm2}, {"mohm_per_m", mohm_per_m}});
    return rows;
}

Json jointRows(const Catalogues& catalogues) {
    Json rows = Json::array();
    for (const auto& [kind, conditions] : catalogues.joints)
        for (const auto& [condition, mohm] : conditions)
            rows.push_back({{"kind", kind}, {"condition", condition}, {"resistance_mohm", mohm}});
    return rows;
}

Json fuseRows(const Catalogues& catalogues) {
    Json rows = Json::array();
    for (const auto& [style, elements] : catalogues.fuses)
        for (const auto& [rating_a, mohm] : elements)
            rows.push_back({{"style", style}, {"rating_a", rating_a}, {"resistance_mohm", mohm}});
    return rows;
}

Json chassisRows(const Catalogues& catalogues) {
    Json rows = Json::array();
    for (const auto& [material, mohm] : catalogues.chassis)
        rows.push_back({{"material", material}, {"spread_mohm", mohm}});
    return rows;
}

Json faultRows(const Catalogues& catalogues) {
    Json rows = Json::array();
    for (const auto& [id, fault] : catalogues.faults)
        rows.push_back(
            {{"kind", id}, {"name", fault.name}, {"of", fault.of}, {"set", asJson(fault.set)}});
    return rows;
}

Json modelRows(const Catalogues& catalogues) {
    Json rows = Json::array();
    for (const auto& [kind, models] : catalogues.parts)
        for (const auto& [name, keys] : models)
            rows.push_back({{"kind", kind}, {"model", name}, {"keys", asJson(keys)}});
    return rows;
}

/// Of a part as it is first drawn; a bus bar and a panel may have more or fewer.
Json terminalRows() {
    Json rows = Json::array();
    for (const std::string& kind : installation::kinds()) {
        const Part part{.body = installation::makeBody(kind).value_or(Body{})};
        rows.push_back({{"kind", kind}, {"terminals", installation::terminalsOf(part)}});
    }
    return rows;
}

Json choicesOf(const installation::Key& key) {
    Json choices = Json::array();
    for (const double choice : key.choices)
        choices.push_back(choice);
    for (const std::string_view word : key.words)
        choices.push_back(word);
    return choices.empty() ? Json(nullptr) : choices;
}

Json keyRows() {
    Json rows = Json::array();
    for (const installation::Key& key : installation::keys()) {
        const bool is_number = key.type == installation::ValueType::Number;
        const std::string_view unit = is_number ? unitOf(key.name) : "";
        rows.push_back({{"kind", key.kind},
                        {"name", key.name},
                        {"type", nameOf(key.type)},
                        {"unit", unit.empty() ? Json(nullptr) : Json(unit)},
                        {"min", is_number ? Json(key.min) : Json(nullptr)},
                        {"max", is_number ? Json(key.max) : Json(nullptr)},
                        {"whole", key.whole},
                        {"choices", choicesOf(key)},
                        {"class", nameOf(key.key_class)},
                        {"meaning", key.meaning}});
    }
    return rows;
}

} // namespace

std::string writePartsJson(const Catalogues& catalogues, const Listing& listing) {
    Json object = Json::object();
    if (listing.catalogues) {
        object["conductors"] = conductorRows(catalogues);
        object["joints"] = jointRows(catalogues);
        object["fuses"] = fuseRows(catalogues);
        object["chassis"] = chassisRows(catalogues);
        object["faults"] = faultRows(catalogues);
        object["models"] = modelRows(catalogues);
    }
    if (listing.terminals)
        object["terminals"] = terminalRows();
    if (listing.keys)
        object["keys"] = keyRows();
    return object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace ebbline::report
