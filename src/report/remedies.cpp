// SPDX-License-Identifier: MIT
// Remedies in words: what cures, and what does not suffice by itself.
#include "remedies.h"

#include "ebbline/text.h"

#include <fmt/core.h>

namespace ebbline::report {
namespace {

using text::fixed;
using enum RemedyKind;

std::string gauge(double value) {
    return value < 1 ? text::number(1 - value) + "/0" : text::number(value);
}

std::string sizeWords(const Remedy& remedy, double value) {
    switch (remedy.scale) {
    case SizeScale::Awg:
        return "AWG " + gauge(value);
    case SizeScale::Sae:
        return "SAE " + gauge(value);
    case SizeScale::Mm2:
        break;
    }
    return text::number(value) + " mm²";
}

std::string actionWords(const Remedy& remedy, double value) {
    const std::string& on = remedy.on;
    switch (remedy.kind) {
    case SwitchOn:
        return "switch on " + on;
    case RenewFuse:
        return "renew or reset " + on + " once the cause is found";
    case RemakeJoint:
        return "remake the joint " + on;
    case RemakeJoints:
        return "remake every poor joint of the loop";
    case RenewContact:
        return "renew the contact of " + on;
    case RenewHolder:
        return "renew the holder of " + on;
    case ChargeBattery:
        return "charge " + on + " to " + fixed(value, 0) + " %";
    case RenewBattery:
        return "a new battery for " + on + ", charged";
    case ChargerOn:
        return "charging source on";
    case OtherLoadsOff:
        return "other loads off";
    case LargerFuse:
        return on + " of " + text::number(value) + " A, where its cable allows it";
    case ThickerCable:
        return on + " in " + sizeWords(remedy, value);
    case ShorterWay:
        return on + " only " + text::number(value) + " m long, one way";
    case DoubleVoltage:
        return "24 V instead of 12 V";
    }
    return "";
}

std::string resultWords(const RemedyStep& step) {
    if (step.outcome != Outcome::Starts)
        return "does not start";
    return std::string(step.margin == Margin::Clear ? "starts clear, " : "starts only just, ") +
           fixed(step.headroom_v, 2) + " V to spare";
}

} // namespace

std::string remedyWords(const Remedy& remedy) {
    const auto& below = remedy.below;
    if (!remedy.cure)
        return below ? actionWords(remedy, below->value) + ": not by this alone, " +
                           resultWords(*below)
                     : "";
    std::string words = actionWords(remedy, remedy.cure->value) + ": " + resultWords(*remedy.cure);
    if (below)
        words += " (" + actionWords(remedy, below->value) + ": " + resultWords(*below) + ")";
    return words;
}

} // namespace ebbline::report
