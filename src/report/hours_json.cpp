// SPDX-License-Identifier: MIT
// A day of cycling for programs: JSON and CSV. Undefined values are null, never 0.
#include "objects.h"

#include "ebbline/hours_telling.h"
#include "ebbline/text.h"

namespace ebbline::report {
namespace {

constexpr double day_s = 24 * 3600.0;

Json toJson(const DayEvent& event) {
    return {{"at_h", event.at_h},
            {"what", nameOf(event.what)},
            {"charge_pct", 100 * event.charge},
            {"element", event.element.empty() ? Json(nullptr) : Json(event.element)}};
}

/// Names of what can be on and is.
Json namesOn(const Network& network, const Switches& switches) {
    Json names = Json::array();
    for (std::size_t i = 0; i < switches.size(); ++i) {
        const Element& element = network.elements[i];
        const bool can_be_off = element.kind == ElementKind::Contact ||
                                element.kind == ElementKind::Load ||
                                element.kind == ElementKind::Charger;
        if (switches[i] && can_be_off)
            names.push_back(element.name);
    }
    return names;
}

Json limitRows(const Hours& hours) {
    Json rows = Json::array();
    for (const StartLimit& limit : hours.limits)
        rows.push_back({{"below_charge_pct", 100 * limit.charge},
                        {"outcome", nameOf(limit.outcome)},
                        {"on", namesOn(hours.network, limit.switches)}});
    return rows;
}

Json eventRows(const Day& day) {
    Json rows = Json::array();
    for (const DayEvent& event : day.events)
        rows.push_back(toJson(event));
    return rows;
}

Json unitRows(const Hours& hours) {
    Json rows = Json::array();
    for (const UnitPoint& point : hours.characteristics.unit)
        rows.push_back(
            {{"volts", point.volts}, {"running_w", point.running_w}, {"idle_w", point.idle_w}});
    return rows;
}

Json orNullPercent(const std::optional<double>& share) {
    return share ? Json(100 * *share) : Json(nullptr);
}

} // namespace

std::string writeHoursJson(const Hours& hours) {
    const DayTotals& totals = hours.day.totals;
    const bool ended = hours.cut_out_h || hours.flat_h;
    const Json object = {
        {"title", hours.network.installation.title},
        {"fridge_ah", totals.fridge_ah},
        {"fridge_wh", totals.fridge_wh},
        {"loads_ah", totals.loads_ah},
        {"charged_ah", totals.charged_ah},
        {"battery_ah", totals.battery_ah},
        {"running_pct", 100 * totals.running_s / day_s},
        {"starts", totals.starts},
        {"failed_starts", totals.failed_starts},
        {"never_called", hours.day.never_called},
        {"overloaded", hours.day.overloaded},
        {"heat_in_kj", totals.heat_in_kj},
        {"heat_out_kj", totals.heat_out_kj},
        {"warming_k", totals.warming_k},
        {"cop", hours.ambient_cop},
        {"first_charge_pct", 100 * totals.first_charge},
        {"last_charge_pct", 100 * totals.last_charge},
        {"cut_out_h", orNull(hours.cut_out_h)},
        {"flat_h", orNull(hours.flat_h)},
        {"end_charge_pct", ended ? Json(100 * hours.charge_at_end) : Json(nullptr)},
        {"start_fails_h", orNull(hours.start_fails_h)},
        {"lowest_start_charge_pct", orNullPercent(hours.lowest_start_charge)},
        {"start_limits", limitRows(hours)},
        {"looked_at_h", hours.looked_at_h},
        {"events", eventRows(hours.day)},
        {"unit", unitRows(hours)},
    };
    return object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string writeDay(const Day& day) {
    std::string out = "time_h,inside_c,running,charge_pct,fridge_v,fridge_a,loads_a,charger_a,"
                      "battery_a\n";
    for (const DaySample& sample : day.samples) {
        out += text::number(sample.at_h);
        for (const double value : {sample.inside_c,
                                   sample.running ? 1.0 : 0.0,
                                   100 * sample.charge,
                                   sample.fridge_v,
                                   sample.fridge_a,
                                   sample.loads_a,
                                   sample.charger_a,
                                   sample.battery_a}) {
            out += ',';
            out += text::number(value);
        }
        out += '\n';
    }
    return out;
}

} // namespace ebbline::report
