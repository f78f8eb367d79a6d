// SPDX-License-Identifier: MIT
// What would make it start, in few words.
#include "names.h"
#include "sentences.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <iterator>

namespace ebbline::drawing {
namespace {

using text::fixed;

std::string remedyWhat(const Installation& installation, const Remedy& remedy, double value) {
    const Part* part = installation.findPart(remedy.on);
    const Run* run = installation.findRun(remedy.on);
    const std::string on = part != nullptr  ? nameOf(*part)
                           : run != nullptr ? nameOf(*run)
                                            : nameOfJoint(installation, remedy.on);
    switch (remedy.kind) {
    case RemedyKind::SwitchOn:
        return words("switch on {}", on);
    case RemedyKind::RenewFuse:
        return words("renew or reset {}", on);
    case RemedyKind::RemakeJoint:
        return words("remake {}", on);
    case RemedyKind::RemakeJoints:
        return words("remake every poor joint");
    case RemedyKind::RenewContact:
        return words("new contact in {}", on);
    case RemedyKind::RenewHolder:
        return words("new holder for {}", on);
    case RemedyKind::RenewCable:
        return words("renew {}, strands broken", on);
    case RemedyKind::ChargeBattery:
        return words("charge {} to {} %", on, fixed(value, 0));
    case RemedyKind::RenewBattery:
        return words("new battery, charged");
    case RemedyKind::ChargerOn:
        return words("charging source on");
    case RemedyKind::OtherLoadsOff:
        return words("other loads off");
    case RemedyKind::LetRest:
        return words("let {} rest", on);
    case RemedyKind::MendUnit:
        return words("mend {} itself", on);
    case RemedyKind::LargerFuse:
        return words("{} of {} A", on, text::figure(value));
    case RemedyKind::ThickerCable:
        return words("{} instead of {}", nameOf(Size{remedy.scale, value}), on);
    case RemedyKind::ShorterWay:
        return words("{} only {} long", on, metres(value));
    case RemedyKind::DoubleVoltage:
        return words("24 V instead of 12 V");
    }
    return "";
}

} // namespace

std::vector<RemedyLine> remedyLines(const Moment& moment) {
    const Installation& installation = moment.examination().network.installation;
    std::vector<RemedyLine> lines;
    for (const Remedy& remedy : moment.inquiry.remedies) {
        const auto& step = remedy.cure ? remedy.cure : remedy.below;
        if (!step)
            continue;
        RemedyLine line{.what = remedyWhat(installation, remedy, step->value),
                        .result = words("not enough"),
                        .starts = step->outcome == Outcome::Starts};
        if (line.starts)
            line.result = step->margin == Margin::Clear
                              ? words("clear, {}", volts(step->headroom_v.value_or(0)))
                              : words("only just, {}", volts(step->headroom_v.value_or(0)));
        lines.push_back(std::move(line));
    }
    // What suffices first, each in its order.
    std::vector<RemedyLine> sorted;
    for (const bool starts : {true, false})
        std::ranges::copy_if(lines, std::back_inserter(sorted), [&](const RemedyLine& line) {
            return line.starts == starts;
        });
    return sorted;
}

} // namespace ebbline::drawing
