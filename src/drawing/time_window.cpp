// SPDX-License-Identifier: MIT
// Which stretch of time a chart shows.
#include "time_window.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

constexpr double lead_s = 0.25; // before the first thing that happens
constexpr double air = 0.12;    // after the last one, as a share of the rest

/// The attempt that had begun last at the moment; the first one before that.
const Attempt* findAttempt(const Start& start, double at_s) {
    const Attempt* found = start.attempts.empty() ? nullptr : &start.attempts.front();
    for (const Attempt& attempt : start.attempts)
        if (attempt.begin_s - lead_s <= at_s)
            found = &attempt;
    return found;
}

/// When the attempt was called for, by the thermostat or by the end of a wait.
double calledAt(const Start& start, const Attempt& attempt) {
    double at_s = attempt.begin_s;
    for (const StartEvent& event : start.events)
        if ((event.what == Happening::Calls || event.what == Happening::TriesAgain ||
             event.what == Happening::SupplyOn) &&
            event.at_s <= attempt.begin_s && event.at_s > attempt.begin_s - 2)
            at_s = std::min(at_s, event.at_s);
    return at_s;
}

/// The last thing in an attempt that one wants to see.
double settledAt(const Start& start, const Attempt& attempt) {
    if (attempt.gave_up)
        return attempt.end_s;
    double at_s = attempt.begin_s + 0.5;
    for (const StartEvent& event : start.events)
        if (event.at_s >= attempt.begin_s && event.at_s <= attempt.end_s)
            at_s = std::max(at_s, event.at_s);
    return std::min(at_s + 0.4, attempt.end_s);
}

} // namespace

TimeWindow findWindow(const Start& start, const Start* held_off, double at_s) {
    TimeWindow window{-lead_s, start.horizon_s};
    if (const Attempt* attempt = findAttempt(start, at_s)) {
        window.from_s = calledAt(start, *attempt) - lead_s;
        window.to_s = settledAt(start, *attempt);
        if (attempt == &start.attempts.front()) {
            if (start.lowest_at_s)
                window.to_s = std::max(window.to_s, *start.lowest_at_s);
            // Its return to a steady run is worth some room, but not so much that the rest
            // vanishes.
            if (held_off != nullptr && held_off->lowest_at_s)
                window.to_s = std::max(window.to_s,
                                       std::min(*held_off->lowest_at_s + 0.4,
                                                window.to_s + (window.to_s - window.from_s)));
        }
    } else {
        const double last_s = start.events.empty() ? 0 : std::max(start.events.back().at_s, 0.0);
        window.to_s = std::min(window.to_s, last_s + 2);
    }
    window.to_s += air * (window.to_s - window.from_s);
    window.from_s = std::min(window.from_s, at_s);
    window.to_s = std::max(window.to_s, at_s);
    return window;
}

} // namespace ebbline::drawing
