// SPDX-License-Identifier: MIT
// Which moments of a start are shown when it is played.
#pragma once

#include "ebbline/telling.h"

#include <vector>

namespace ebbline::report {

/// Scene times in rising order, each to be shown equally long: they lie close together where much
/// happens and around the worst moment, so that playing slows down there by itself.
struct Instants {
    std::vector<double> at_s;
    std::size_t worst = 0;             ///< the moment that says most
    std::vector<std::size_t> stations; ///< the worst one, and every event
};

/// `count` of them, at least 10; both ends of the stretch are among them. The start holds frames.
[[nodiscard]] Instants
chooseInstants(const Start& start, const Stretch& stretch, std::size_t count);

} // namespace ebbline::report
