// SPDX-License-Identifier: MIT
// Other consumers on the fridge's feed: whether its fuses carry them all, and what they cost.
#include "rule_facts.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::verdict {
namespace {

double ohmOf(const Facts& facts, const Sharing& sharing) {
    double ohm = 0;
    for (const auto* elements : {&sharing.out, &sharing.back})
        for (const int index : *elements)
            ohm += facts.element(index).ohm;
    return ohm;
}

/// "bilge-pump 5.0 A takes 0.31 V".
std::string describeSharing(const Facts& facts) {
    std::string all;
    for (const Sharing& sharing : facts.survey.sharings) {
        const double amps = facts.loadAmps(sharing.consumer);
        all += (all.empty() ? "" : "; ") + words("{}, {} A, takes {} V from the fridge",
                                                 facts.element(sharing.consumer).name,
                                                 text::fixed(amps, 1),
                                                 text::fixed(amps * ohmOf(facts, sharing), 2));
    }
    return all;
}

} // namespace

void judgeSharedFeed(const Facts& facts, Findings& findings) {
    RuleFinding finding{.rule = "shared-feed",
                        .on = facts.drawn().subject,
                        .unit = "A",
                        .source = words("common practice, no source")};
    const auto fridge_a = facts.runningAmps();
    if (!facts.network.loop) {
        finding.reason = words("No closed loop leads from a battery to the fridge.");
    } else if (facts.survey.sharings.empty()) {
        finding.state = RuleState::Kept;
        finding.reason = words("Nothing else draws current through the fridge's feed or return.");
    } else if (!fridge_a) {
        finding.reason = words("The compressor never ran, so its running current is not known; {}.",
                               describeSharing(facts));
    } else {
        for (const int fuse : facts.protectors(facts.out())) {
            const double amps = facts.carriedAmps(fuse, *fridge_a);
            const double rating_a = facts.ratingOf(fuse);
            if (finding.value && finding.limit &&
                *finding.limit - *finding.value <= rating_a - amps)
                continue;
            finding.on = facts.element(fuse).name;
            finding.value = amps;
            finding.limit = rating_a;
            finding.state = amps <= rating_a ? RuleState::Kept : RuleState::Broken;
        }
        finding.reason = finding.value
                             ? words("All on at once; {}.", describeSharing(facts))
                             : words("No fuse to hold this against; {}.", describeSharing(facts));
    }
    findings.push_back(std::move(finding));
}

} // namespace ebbline::verdict
