// SPDX-License-Identifier: MIT
// Figures and states in words: volts, seconds, what the fridge is doing.
#include "sentences.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <cmath>
#include <optional>

namespace ebbline::drawing {

using text::fixed;

std::string figure(double value, int decimals) {
    const std::string text = fixed(std::abs(value), decimals);
    const bool is_zero = text.find_first_not_of("0.") == std::string::npos;
    return value < 0 && !is_zero ? "−" + text : text;
}

std::string seconds(double at_s) {
    return words("{}\u00a0s", figure(at_s, 2));
}

std::string volts(double value) {
    return words("{}\u00a0V", figure(value, 2));
}

std::string lossWords(double value) {
    return value < -0.005 ? words("gains {}", volts(-value)) : words("loses {}", volts(value));
}

std::string circumstances(const Installation& installation) {
    std::string all = words("{} V", text::figure(installation.nominal_v));
    for (const Part& part : installation.parts)
        if (const auto* battery = std::get_if<Battery>(&part.body)) {
            all += words(" · battery {} % charged", fixed(battery->charge_pct, 0));
            break;
        }
    return all + words(" · {} °C", figure(installation.surroundings.ambient_c, 0));
}

std::string happeningWords(Happening what) {
    switch (what) {
    case Happening::SupplyOn:
        return words("supply on");
    case Happening::Calls:
        return words("called");
    case Happening::Positions:
        return words("positions");
    case Happening::SpinsUp:
        return words("spins up");
    case Happening::FullSpeed:
        return words("runs");
    case Happening::GaveUp:
        return words("gave up");
    case Happening::TriesAgain:
        return words("tries again");
    case Happening::FuseOpens:
        return words("fuse opens");
    }
    return "";
}

std::string activity(const Start& start, double at_s) {
    std::optional<Happening> last;
    for (const StartEvent& event : start.events)
        if (event.at_s <= at_s + 1e-9)
            last = event.what;
    if (!last)
        return words("off");
    if (*last == Happening::SupplyOn)
        return words("not called");
    return *last == Happening::FuseOpens ? words("fuse opened") : happeningWords(*last);
}

std::string balance(const Figures& figures) {
    if (!figures.hasLoop())
        return words("It needs {} to stay on.", volts(figures.cut_out_v));
    const std::string needs = volts(figures.cut_out_v);
    const std::string arrives = volts(figures.arriving());
    return figures.reversed
               ? words("It needs {} to stay on. {} arrive the wrong way round.", needs, arrives)
               : words("It needs {} to stay on. {} arrive.", needs, arrives);
}

} // namespace ebbline::drawing
