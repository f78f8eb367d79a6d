// SPDX-License-Identifier: MIT
// Remedies in words: what cures, and what does not suffice by itself.
#include "remedies.h"

#include "ebbline/network.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

namespace ebbline::report {
namespace {

using text::fixed;
using enum RemedyKind;

std::string actionWords(const Remedy& remedy, double value) {
    const std::string& on = remedy.on;
    switch (remedy.kind) {
    case SwitchOn:
        return words("switch on {}", on);
    case RenewFuse:
        return words("renew or reset {} once the cause is found", on);
    case RemakeJoint:
        return words("remake the joint {}", on);
    case RemakeJoints:
        return words("remake every poor joint of the loop");
    case RenewContact:
        return words("renew the contact of {}", on);
    case RenewHolder:
        return words("renew the holder of {}", on);
    case ChargeBattery:
        return words("charge {} to {} %", on, fixed(value, 0));
    case RenewBattery:
        return words("a new battery for {}, charged", on);
    case ChargerOn:
        return words("charging source on");
    case OtherLoadsOff:
        return words("other loads off");
    case LargerFuse:
        return words("{} of {} A, where its cable allows it", on, text::figure(value));
    case ThickerCable:
        return text::tidyUnits(words("{} in {}", on, network::sizeWords({remedy.scale, value})));
    case ShorterWay:
        return words("{} only {} m long, one way", on, text::figure(value));
    case DoubleVoltage:
        return words("24 V instead of 12 V");
    }
    return "";
}

std::string resultWords(const RemedyStep& step) {
    if (step.outcome != Outcome::Starts)
        return words("does not start");
    const std::string spare_v = fixed(step.headroom_v, 2);
    return step.margin == Margin::Clear ? words("starts clear, {} V to spare", spare_v)
                                        : words("starts only just, {} V to spare", spare_v);
}

} // namespace

std::string remedyWords(const Remedy& remedy) {
    const auto& below = remedy.below;
    if (!remedy.cure)
        return below ? words("{}: not by this alone, {}",
                             actionWords(remedy, below->value),
                             resultWords(*below))
                     : "";
    const std::string cure =
        words("{}: {}", actionWords(remedy, remedy.cure->value), resultWords(*remedy.cure));
    return below
               ? words("{} ({}: {})", cure, actionWords(remedy, below->value), resultWords(*below))
               : cure;
}

} // namespace ebbline::report
