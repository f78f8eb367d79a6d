// SPDX-License-Identifier: MIT
// Headroom: whether this fridge starts on this supply. Not a drop rule, and no drop rule replaces
// it.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

namespace ebbline::verdict {
namespace {

/// The states in which the supply was never put to the test.
std::string whyUntried(Outcome outcome) {
    switch (outcome) {
    case Outcome::Starts:
    case Outcome::Trips:
        return "";
    case Outcome::Stalls:
        return words("The compressor stalls, and a stalled compressor draws little.");
    case Outcome::FuseOpens:
        return words("A fuse opens before the start is over.");
    default:
        return words("The compressor was never driven ({}).", term(nameOf(outcome)));
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
                        .source = words("this simulation; the unit's own low-voltage cut-out")};
    if (start.outcome == Outcome::Starts) {
        finding.state = RuleState::Kept;
        finding.reason = verdict.margin == Margin::Clear
                             ? words("It starts, clear of its low-voltage cut-out.")
                             : words("It starts, but only just: less than {} V to spare, within "
                                     "what is estimated.",
                                     text::fixed(estimate_band_v, 1));
    } else if (start.outcome == Outcome::Trips) {
        finding.state = RuleState::Broken;
        finding.reason = verdict.headroom_v
                             ? words("Its low-voltage cut-out acts; held on, it would have fallen "
                                     "short by this much.")
                             : words("Its low-voltage cut-out acts; {}.",
                                     words(verdict.no_headroom_reason.c_str()));
    }
    findings.push_back(std::move(finding));
}

} // namespace ebbline::verdict
