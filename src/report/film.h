// SPDX-License-Identifier: MIT
// The three pictures of a start at many moments, for a page to play.
#pragma once

#include "reel.h"

#include "ebbline/instants.h"

#include <array>
#include <string>
#include <vector>

namespace ebbline::report {

/// Plan, gap chart and time chart of one size.
struct Film {
    std::array<Reel, 3> pictures;
    std::string outline; ///< SVG lines of the gap chart's two lines at the worst moment
};

/// Plan, gap chart and time chart at one moment, as SVG.
using Stills = std::array<std::string, 3>;

/// Everything that is played.
struct Showing {
    Instants instants;
    std::vector<std::string> words; ///< each instant in words
    Film narrow;                    ///< for a phone
    Film wide;                      ///< for a laptop or a wall
    Stills paper;                   ///< the worst moment, for A4
};

[[nodiscard]] Showing makeShowing(const Inquiry& whole);

/// As JSON that may stand within a script element.
[[nodiscard]] std::string writeJson(const Showing& showing);

/// Names of thousands of letters would be measured again and again, in every picture.
[[nodiscard]] Inquiry withShortNames(Inquiry inquiry);

} // namespace ebbline::report
