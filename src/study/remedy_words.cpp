// SPDX-License-Identifier: MIT
// What a remedy asks one to do.
#include "ebbline/network.h"
#include "ebbline/remedies.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

namespace ebbline::study {

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
    case RenewCable:
        return words("renew {}, which has broken strands", on);
    case ChargeBattery:
        return words("charge {} to {} %", on, text::fixed(value, 0));
    case RenewBattery:
        return words("a new battery for {}, charged", on);
    case ChargerOn:
        return words("charging source on");
    case OtherLoadsOff:
        return words("other loads off");
    case LetRest:
        return words("let {} rest until it is cool and its pressures are equal", on);
    case MendUnit:
        return words("mend {} itself, the supply as it is", on);
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

} // namespace ebbline::study
