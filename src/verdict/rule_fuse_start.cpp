// SPDX-License-Identifier: MIT
// Each fuse in the feed is large enough for the current of the start.
#include "rule_facts.h"
#include "rule_source.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::verdict {
namespace {

/// Seconds during which the current is above a level, by straight lines between stored points.
double secondsAbove(const Waveform& waveform, double amps) {
    double seconds = 0;
    for (std::size_t i = 1; i < waveform.time_s.size(); ++i) {
        const double step_s = waveform.time_s[i] - waveform.time_s[i - 1];
        const double high = std::max(waveform.amps[i], waveform.amps[i - 1]);
        const double low = std::min(waveform.amps[i], waveform.amps[i - 1]);
        if (low > amps)
            seconds += step_s;
        else if (high > amps)
            seconds += step_s * (high - amps) / (high - low);
    }
    return seconds;
}

/// Heat, A2 s, of the current and what others draw besides, while both are above a level.
double heatAbove(const Waveform& waveform, double amps, double others_a) {
    double heat = 0;
    for (std::size_t i = 1; i < waveform.time_s.size(); ++i) {
        const double mean = (waveform.amps[i] + waveform.amps[i - 1]) / 2 + others_a;
        if (mean > amps)
            heat += mean * mean * (waveform.time_s[i] - waveform.time_s[i - 1]);
    }
    return heat;
}

/// Why the fuse may open; empty when it surely holds. At a current between two published points it
/// holds at least as long as at the larger.
std::string
whyItMayOpen(const FuseKind& kind, double rating_a, double others_a, const Waveform& waveform) {
    for (std::size_t i = 1; i < kind.limits.size(); ++i) {
        const double level_a = kind.limits[i - 1].times * rating_a;
        const double seconds = secondsAbove(waveform, level_a - others_a);
        if (seconds > kind.limits[i].shortest_s)
            return words("For {} s more than {} A flows, and it may open in {} s at {} A.",
                         text::fixed(seconds, 2),
                         text::fixed(level_a, 1),
                         text::figure(kind.limits[i].shortest_s),
                         text::fixed(kind.limits[i].times * rating_a, 1));
    }
    const FuseLimit& last = kind.limits.back();
    const double last_a = last.times * rating_a;
    const double heat = heatAbove(waveform, last_a, others_a);
    const double least_heat = last_a * last_a * last.shortest_s;
    return heat <= least_heat ? ""
                              : words("The surge brings {} A2 s, and it may melt at {} A2 s.",
                                      text::fixed(heat, 0),
                                      text::fixed(least_heat, 0));
}

/// The run that says more: held off where the cut-out ended the other.
const Start& fullStart(const Facts& facts) {
    const Start* held_off = facts.evidence.held_off;
    return held_off != nullptr && held_off->peak_a ? *held_off : facts.evidence.start;
}

void judgeOne(const Facts& facts, int fuse, Findings& findings) {
    const Start& start = fullStart(facts);
    const double rating_a = facts.ratingOf(fuse);
    const double others_a = facts.carriedAmps(fuse, 0);
    RuleFinding finding{.rule = "fuse-carries-start",
                        .on = facts.element(fuse).name,
                        .unit = "A",
                        .source = words("common practice, no source")};
    const FuseKind* kind = findFuseKind(facts, fuse);
    if (!start.peak_a) {
        finding.reason =
            words("The compressor was never driven, so its start current is not known.");
    } else if (start.outcome == Outcome::Stalls) {
        finding.reason = words("The compressor stalled; a start that runs draws more.");
    } else if (!facts.isFuse(fuse)) {
        finding.value = *start.peak_a + others_a;
        finding.limit = rating_a;
        finding.reason = *finding.value <= rating_a
                             ? words("The highest current of the start lies within its rating.")
                             : words("The start exceeds its rating for a moment; how long it holds "
                                     "then needs its time-current curve.");
        if (*finding.value <= rating_a)
            finding.state = RuleState::Kept;
    } else if (kind == nullptr) {
        finding.reason = words("No table of opening times is loaded.");
    } else {
        const std::string why = whyItMayOpen(*kind, rating_a, others_a, start.waveform);
        finding.state = why.empty() ? RuleState::Kept : RuleState::Broken;
        finding.unchecked = kind->source.from_memory;
        finding.value = *start.peak_a + others_a;
        finding.limit = kind->limits.front().times * rating_a;
        finding.source = kind->source.text;
        finding.reason =
            why.empty() ? *finding.value <= *finding.limit
                              ? words("It carries the highest current of the start for ever.")
                              : words("The start exceeds what it carries for ever, but never long "
                                      "enough to open it.")
                        : why;
    }
    findings.push_back(std::move(finding));
}

} // namespace

void judgeFuseForStart(const Facts& facts, Findings& findings) {
    for (const int fuse : facts.protectors(facts.out()))
        judgeOne(facts, fuse, findings);
}

} // namespace ebbline::verdict
