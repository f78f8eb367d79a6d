// SPDX-License-Identifier: MIT
// How the pictures tell a start: in which words, and over which stretch of time.
#pragma once

#include "ebbline/drawing.h"

#include <string>
#include <vector>

namespace ebbline {

/// A piece of scene time.
struct Stretch {
    double from_s = 0;
    double to_s = 0;
};

/// What the page of pictures says in words, for whoever says it elsewhere.
struct Wording {
    std::string heading;              ///< the verdict with its cause in two or three words
    std::string cause;                ///< the same with the figures behind it, a sentence
    std::vector<std::string> reasons; ///< a sentence each, the most important first
    std::string action;               ///< what to do first; may be empty
};

namespace drawing {

[[nodiscard]] Wording wordingOf(const Moment& moment);

/// What the time chart shows at the moment; all moments within it show the same.
[[nodiscard]] Stretch shownStretch(const Moment& moment);

/// What the fridge is doing: "spins up".
[[nodiscard]] std::string activityAt(const Moment& moment);

/// What an element, part or run is called in the pictures: "15 A fuse", "1.5 mm² twin, 9.1 m",
/// "corroded crimp at Fridge plus".
[[nodiscard]] std::string nameOfThing(const Installation& installation, const std::string& thing);

/// What a terminal is called: "Fridge plus", "15 A fuse, load side".
[[nodiscard]] std::string nameOfTerminal(const Installation& installation,
                                         const Terminal& terminal);

} // namespace drawing
} // namespace ebbline
