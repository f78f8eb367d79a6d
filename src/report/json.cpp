// SPDX-License-Identifier: MIT
// One start as JSON. Undefined values are null, never 0.
#include "objects.h"
#include "words.h"

#include "ebbline/report.h"

namespace ebbline::report {
namespace {

Json ledgerRows(const Start& start) {
    Json rows = Json::array();
    if (start.ledger)
        for (const LedgerRow& row : start.ledger->rows)
            rows.push_back({{"element", row.element},
                            {"side", nameOf(row.side)},
                            {"volts", row.volts},
                            {"ohms", orNull(row.ohms)},
                            {"watts", row.watts()}});
    return rows;
}

Json eventRows(const Start& start) {
    Json rows = Json::array();
    for (const StartEvent& event : start.events)
        rows.push_back({{"at_s", event.at_s}, {"what", nameOf(event.what)}});
    return rows;
}

Json meterRows(const Start& start) {
    Json rows = Json::array();
    for (const MeterReading& reading : start.meters)
        rows.push_back({{"meter", reading.meter},
                        {"lowest_v", reading.lowest_v},
                        {"highest_v", reading.highest_v},
                        {"at_lowest_v", orNull(reading.at_lowest_v)}});
    return rows;
}

template <class Things>
Json arrayOf(const Things& things) {
    Json array = Json::array();
    for (const auto& thing : things)
        array.push_back(toJson(thing));
    return array;
}

} // namespace

std::string writeJson(const Inquiry& inquiry) {
    const Examination& examination = inquiry.examination;
    const Start& start = examination.start;
    const Verdict& verdict = examination.verdict;
    const bool has_loop = examination.network.loop.has_value();
    const Json object = {
        {"title", examination.network.installation.title},
        {"outcome", nameOf(start.outcome)},
        {"margin", nameOf(verdict.margin)},
        {"lowest_v", orNull(start.lowest_v)},
        {"lowest_at_s", orNull(start.lowest_at_s)},
        {"sensed_lowest_v", orNull(start.sensed_lowest_v)},
        {"cut_out_v", verdict.cut_out_v},
        {"cut_in_v", verdict.cut_in_v},
        {"held_off_lowest_v", orNull(verdict.held_off_lowest_v)},
        {"headroom_v", orNull(verdict.headroom_v)},
        {"no_headroom_reason",
         verdict.no_headroom_reason.empty() ? Json(nullptr) : Json(verdict.no_headroom_reason)},
        {"loop_ohms", has_loop ? Json(examination.loop_ohm) : Json(nullptr)},
        {"loop_limit_ohms", orNull(examination.loop_limit_ohm)},
        {"inrush_a", orNull(start.inrush_a)},
        {"peak_a", orNull(start.peak_a)},
        {"running_a", orNull(start.running_a)},
        {"running_v", orNull(start.running_v)},
        {"retries", start.retries},
        {"horizon_s", start.horizon_s},
        {"source_v", orNull(start.source_v)},
        {"ledger", ledgerRows(start)},
        {"ledger_error_v", start.ledger ? Json(start.ledger_error_v) : Json(nullptr)},
        {"headline",
         {{"cause", inquiry.headline.cause},
          {"action", inquiry.headline.action},
          {"element", inquiry.headline.element}}},
        {"losses", arrayOf(inquiry.losses)},
        {"rules", arrayOf(inquiry.rules)},
        {"lamp",
         {{"steady", inquiry.lamp.steady},
          {"flashes", inquiry.lamp.flashes},
          {"flash_s", inquiry.lamp.flash_s},
          {"gap_s", inquiry.lamp.gap_s},
          {"every_s", inquiry.lamp.every_s},
          {"words", lampWords(inquiry)}}},
        {"remedies", arrayOf(inquiry.remedies)},
        {"events", eventRows(start)},
        {"meters", meterRows(start)},
    };
    // A title may hold what is not UTF-8 only if the reader let it pass; it is replaced, not fatal.
    return object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace ebbline::report
