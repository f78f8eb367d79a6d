// SPDX-License-Identifier: MIT
// Margin and headroom of one start.
#include "ebbline/error.h"
#include "ebbline/verdict.h"
#include "ebbline/words.h"

namespace ebbline {

std::string_view nameOf(Margin margin) {
    switch (margin) {
    case Margin::Clear:
        return "clear";
    case Margin::OnlyJust:
        return "only-just";
    case Margin::No:
        return "no";
    }
    return "";
}

namespace verdict {
namespace {

/// Why the held-off start gives no lowest voltage one could build on; empty when it does.
std::string whyCollapsed(const Start& start) {
    if (!start.lowest_v)
        return phrase("no attempt took place");
    // Below half the source voltage a load takes less power the more current it draws.
    if (start.source_v && *start.lowest_v < *start.source_v / 2)
        return phrase("the supply collapses: it cannot carry the power at any voltage");
    if (!start.reached_speed)
        return phrase("the supply collapses: the compressor never reaches its speed");
    return "";
}

std::string whyNone(const Start& start, const Start* held_off) {
    switch (start.outcome) {
    case Outcome::Starts:
        return "";
    case Outcome::Trips:
        return whyCollapsed(*held_off);
    case Outcome::FuseOpens:
        return phrase("the fuse or breaker opened before the voltage could tell");
    case Outcome::Stalls:
        return phrase("a stalled compressor draws little: the voltage says nothing about it");
    default:
        return phrase("the compressor was never driven");
    }
}

} // namespace

Verdict judge(const Installation& installation, const Start& start, const Start* held_off) {
    EBBLINE_ASSERT(start.outcome != Outcome::Trips || held_off != nullptr,
                   "a start that trips is judged with its held-off twin");
    const auto& unit = std::get<Controller>(installation.findPart(installation.subject)->body);
    const double nominal_v = unit.nominal_v > 0 ? unit.nominal_v : installation.nominal_v;
    const bool on_24_v = nominal_v > 18;
    Verdict verdict{.cut_out_v = on_24_v ? unit.cut_out_24_v : unit.cut_out_v,
                    .cut_in_v = on_24_v ? unit.cut_in_24_v : unit.cut_in_v,
                    .no_headroom_reason = whyNone(start, held_off)};
    if (verdict.no_headroom_reason.empty()) {
        const Start& undisturbed = start.outcome == Outcome::Starts ? start : *held_off;
        EBBLINE_ASSERT(undisturbed.sensed_lowest_v.has_value(),
                       "a start that was driven to its end has a lowest sensed voltage");
        verdict.held_off_lowest_v = undisturbed.sensed_lowest_v;
        verdict.headroom_v = *undisturbed.sensed_lowest_v - verdict.cut_out_v;
    }
    if (start.outcome == Outcome::Starts)
        verdict.margin = verdict.headroom_v > estimate_band_v ? Margin::Clear : Margin::OnlyJust;
    return verdict;
}

} // namespace verdict
} // namespace ebbline
