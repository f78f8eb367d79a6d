// SPDX-License-Identifier: MIT
// What the controller's lamp shows, in words.
#include "words.h"

#include "ebbline/text.h"

namespace ebbline::report {
namespace {

/// What a pattern stands for.
const char* meaning(Outcome outcome) {
    switch (outcome) {
    case Outcome::Starts:
        return phrase("the compressor runs");
    case Outcome::Trips:
        return phrase("it gave up for low voltage and waits for its next try");
    case Outcome::Stalls:
        return phrase("the compressor did not turn");
    case Outcome::SupplyLow:
        return phrase("the supply does not reach its cut-in");
    case Outcome::ThermostatOpen:
        return phrase("the thermostat does not call");
    case Outcome::WrongVoltage:
        return phrase("this supply is not its voltage");
    case Outcome::NotDriven:
        return phrase("something of its own keeps it off");
    case Outcome::FuseOpens:
    case Outcome::NotPowered:
    case Outcome::Reversed:
        return phrase("it has no supply");
    }
    return "";
}

} // namespace

std::string lampWords(const Inquiry& inquiry) {
    const LampPattern& lamp = inquiry.lamp;
    const std::string means = words(meaning(inquiry.examination.start.outcome));
    if (lamp.steady)
        return words("lights steadily: {} (a practice pattern)", means);
    if (lamp.flashes == 0)
        return words("stays dark: it has no supply, or no controller that lights it");
    if (lamp.flashes == 1)
        return words(
            "blinks once every {} s: {} (a practice pattern)", text::figure(lamp.every_s), means);
    return words("blinks {} times every {} s: {} (a practice pattern)",
                 lamp.flashes,
                 text::figure(lamp.every_s),
                 means);
}

} // namespace ebbline::report
