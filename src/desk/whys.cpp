// SPDX-License-Identifier: MIT
// A short why for every word of the trade that stands on a sheet.
#include "ebbline/whys.h"

#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <map>

namespace ebbline::desk {
namespace {

constexpr std::size_t most_at_once = 2;

// Alternatives stand between bars. Another language puts its own words there, any number of them.
constexpr std::array whys{
    Why{phrase("cut-out|ended the try|gives up"),
        phrase(
            "The low-voltage cut-out: below this voltage at its terminals the fridge's controller "
            "gives up, to spare the battery.")},
    Why{phrase("cut-in"),
        phrase(
            "After the cut-out has acted, the controller waits until the voltage has risen above "
            "this one before it tries again.")},
    Why{phrase("to spare|spare"),
        phrase("Volts between what is there and the cut-out: as much may still be lost before the "
               "fridge gives up.")},
    Why{phrase("short"),
        phrase("As much voltage is missing: the fridge would need it to stay above its cut-out.")},
    Why{phrase("held on"),
        phrase("The same start with the cut-out kept from acting. Giving up ends the dip, so only "
               "this shows how deep it would have gone.")},
    Why{phrase("filtered"),
        phrase("The controller ignores dips of a few milliseconds: it goes by a voltage smoothed "
               "over a short time.")},
    Why{phrase("lowest"),
        phrase("The lowest voltage at the fridge's terminals from the call on. A slow meter shows "
               "only a part of so short a dip.")},
    Why{phrase("lost|loses|loss"),
        phrase("Voltage used up on the way: resistance times current. Without current nothing is "
               "lost, so a meter at rest shows nothing.")},
    Why{phrase("needlessly"),
        phrase("The share of a loss that a cable thick enough, or a sound joint, would not have.")},
    Why{phrase("one way"),
        phrase("The length of cable from end to end. The current goes out and comes back, through "
               "twice that.")},
    Why{phrase("twin"), phrase("Two cores in one sheath: one out, one back. Both lose voltage.")},
    Why{phrase("mm²|AWG"),
        phrase("Cross-section of the copper. Twice the cross-section has half the resistance, and "
               "loses half.")},
    Why{phrase("mΩ"),
        phrase("Thousandths of an ohm. At 10 A each of them loses a hundredth of a volt: far too "
               "little resistance for an ohmmeter.")},
    Why{phrase("crimp|joint"),
        phrase("Where a conductor ends. A sound one has a fraction of a thousandth of an ohm; a "
               "slack or corroded one many, and it gets hot.")},
    Why{phrase("fuse"),
        phrase(
            "Parts when too much current flows for too long, so that the cable does not burn. Its "
            "own resistance loses voltage too.")},
    Why{phrase("breaker"),
        phrase("Does what a fuse does and can be set again. Its contacts and its coil lose voltage "
               "too.")},
    Why{phrase("supply loop"),
        phrase("Everything the fridge's current passes, out and back, without the battery. Its "
               "resistance times the current is what is lost on the way.")},
    Why{phrase("called|calls"),
        phrase("The thermostat closes and the controller begins a try. From this moment on time is "
               "counted.")},
    Why{phrase("controller"),
        phrase("The electronics on the compressor. It makes three phases for the motor out of the "
               "battery's voltage, and watches that voltage.")},
    Why{phrase("supply on"),
        phrase("The installation is alive and the fridge waits: only what else is on draws "
               "current.")},
    Why{phrase("isolator"),
        phrase("The switch that takes the battery off the wiring. Burnt contacts lose voltage.")},
    Why{phrase("bond|chassis"),
        phrase(
            "Where the minus side goes through the vehicle's body, the bolt and its bare metal are "
            "a joint like any other.")},
    Why{phrase("thermostat"),
        phrase("Calls the controller when it is too warm inside. It carries almost no current; "
               "bridged, it takes itself out of the question.")},
    Why{phrase("lost inside"),
        phrase("Every battery has a resistance of its own, more of it when it is empty, cold or "
               "old.")},
    Why{phrase("charged"),
        phrase("How full the battery is. A fuller one rests at a higher voltage and gives way "
               "less.")},
    Why{phrase("°C|warmth"),
        phrase("How warm it is around the wiring. Warm copper has more resistance; a cold battery "
               "gives way more.")},
    Why{phrase("plus side"),
        phrase(
            "From the battery's plus to the fridge's plus. With the black lead on battery minus a "
            "meter reads less and less along it.")},
    Why{phrase("minus side"),
        phrase(
            "From the fridge's minus back to the battery's. With the black lead on battery minus a "
            "meter reads what has been lost up to there.")},
    Why{phrase("at rest|stands still"),
        phrase(
            "Before the fridge is called hardly any current flows, so there is hardly any loss to "
            "see.")},
    Why{phrase("before"),
        phrase("The thin outline is the start as it was before your last change.")},
    Why{phrase("worst|says most"),
        phrase("The moment at which the voltage at the fridge is lowest. Playing halts there by "
               "itself.")},
    Why{phrase("draft"),
        phrase("A quick run, within 20 mV. The final one, within 1 mV, replaces it by itself.")},
    Why{phrase("positions"),
        phrase("The controller brings the rotor to a known place before it can turn it. A steady "
               "current flows.")},
    Why{phrase("spins up"),
        phrase("The compressor gains speed against the gas. That takes the most current of all, so "
               "the voltage dips deepest.")},
    Why{phrase("stall"),
        phrase("The compressor does not turn although it is driven: it starts against pressure, or "
               "it is stuck. That is no matter of the supply.")},
    Why{phrase("tries again|try"),
        phrase("After giving up, the controller waits for a while and makes another try, again and "
               "again.")},
};

std::string lowered(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(), [](char letter) {
        return static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    });
    return small;
}

bool isLetter(char byte) {
    const auto code = static_cast<unsigned char>(byte);
    return std::isalpha(code) != 0 || code >= 0x80; // beyond ASCII: a part of one
}

/// Where a word begins in a text, both in small letters; nowhere within another word.
std::size_t placeOf(const std::string& word, const std::string& text) {
    std::size_t at = text.find(word);
    while (at != std::string::npos && at > 0 && isLetter(text[at - 1]) && isLetter(word.front()))
        at = text.find(word, at + 1);
    return at;
}

} // namespace

std::span<const Why> allWhys() {
    return whys;
}

std::vector<std::string> wordsOf(const Why& why) {
    const std::string all = words(why.spoken);
    std::vector<std::string> alternatives;
    for (std::size_t from = 0; from <= all.size();) {
        const std::size_t bar = std::min(all.find('|', from), all.size());
        alternatives.push_back(all.substr(from, bar - from));
        from = bar + 1;
    }
    return alternatives;
}

std::vector<Why> whysIn(std::string_view text) {
    const std::string small = lowered(text);
    std::map<std::size_t, Why> found;
    for (const Why& why : whys)
        for (const std::string& word : wordsOf(why))
            if (const std::size_t at = placeOf(lowered(word), small); at != std::string::npos)
                found.insert_or_assign(at, why); // "lost inside" comes after "lost", and wins
    std::vector<Why> first;
    for (const auto& [at, why] : found)
        if (first.size() < most_at_once)
            first.push_back(why);
    return first;
}

} // namespace ebbline::desk
