// SPDX-License-Identifier: MIT
// The largest short-circuit current against what a fuse can break.
#include "rule_source.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

namespace ebbline::verdict {
namespace {

double ohmBefore(const Facts& facts, int fuse) {
    double ohm = 0;
    for (const int element : facts.out()) {
        if (element == fuse)
            break;
        ohm += facts.element(element).ohm - facts.element(element).film_ohm; // which gives way
    }
    return ohm;
}

void holdAgainstBreaking(const Facts& facts, int fuse, RuleFinding& finding) {
    const auto source = findStrongestSource(facts);
    const FuseKind* kind = findFuseKind(facts, fuse);
    if (!source) {
        finding.reason = whyNoSource(facts);
        return;
    }
    finding.value = source->volts / (source->ohm + ohmBefore(facts, fuse)) + source->extra_a;
    if (!facts.isFuse(fuse) || kind == nullptr || kind->breaking_a == 0 ||
        facts.ratingOf(fuse) > kind->highest_a) {
        finding.reason = words("What it can interrupt is not drawn and stands in no table; compare "
                               "the largest current with its marking.");
        return;
    }
    finding.limit = kind->breaking_a;
    finding.unchecked = source->unchecked;
    finding.source = kind->source.text + "; " + source->text;
    const bool kept = *finding.value <= *finding.limit && source->volts <= kind->highest_v;
    finding.state = kept ? RuleState::Kept : RuleState::Broken;
    finding.reason = words("Taken as a blade fuse for up to {} V; a short right behind it, the "
                           "battery full ({} V, {} mohm).",
                           text::figure(kind->highest_v),
                           text::fixed(source->volts, 1),
                           text::fixed(source->ohm * 1e3, 1));
}

} // namespace

void judgeBreakingCapacity(const Facts& facts, Findings& findings) {
    for (const int fuse : facts.protectors(facts.out())) {
        RuleFinding finding{
            .rule = "breaking-capacity", .on = facts.element(fuse).name, .unit = "A"};
        holdAgainstBreaking(facts, fuse, finding);
        findings.push_back(std::move(finding));
    }
}

} // namespace ebbline::verdict
