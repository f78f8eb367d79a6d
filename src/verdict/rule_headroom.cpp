// SPDX-License-Identifier: MIT
// Headroom: whether this fridge starts on this supply. Not a drop rule, and no drop rule replaces
// it.
#include "rule_facts.h"

#include "ebbline/text.h"

namespace ebbline::verdict {
namespace {

/// The states in which the supply was never put to the test.
std::string whyUntried(Outcome outcome) {
    switch (outcome) {
    case Outcome::Starts:
    case Outcome::Trips:
        return "";
    case Outcome::Stalls:
        return "The compressor stalls, and a stalled compressor draws little.";
    case Outcome::FuseOpens:
        return "A fuse opens before the start is over.";
    default:
        return "The compressor was never driven (" + std::string(nameOf(outcome)) + ").";
    }
}

} // namespace

void judgeHeadroom(const Facts& facts, Findings& findings) {
    const Start& start = facts.evidence.start;
    const Verdict& verdict = facts.evidence.verdict;
    RuleFinding finding{.rule = "headroom",
                        .on = facts.drawn().subject,
                        .value = verdict.headroom_v,
                        .limit = 0,
                        .limit_is_least = true,
                        .unit = "V",
                        .reason = whyUntried(start.outcome),
                        .source = "this simulation; the unit's own low-voltage cut-out"};
    if (start.outcome == Outcome::Starts) {
        finding.state = RuleState::Kept;
        finding.reason = verdict.margin == Margin::Clear
                             ? "It starts, clear of its low-voltage cut-out."
                             : "It starts, but only just: less than " +
                                   text::fixed(estimate_band_v, 1) +
                                   " V to spare, within what is estimated.";
    } else if (start.outcome == Outcome::Trips) {
        finding.state = RuleState::Broken;
        finding.reason = verdict.headroom_v
                             ? "Its low-voltage cut-out acts; held on, it would have fallen short "
                               "by this much."
                             : "Its low-voltage cut-out acts; " + verdict.no_headroom_reason + ".";
    }
    findings.push_back(std::move(finding));
}

} // namespace ebbline::verdict
