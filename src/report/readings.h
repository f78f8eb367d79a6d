// SPDX-License-Identifier: MIT
// What a meter shows at the numbered places of the supply loop.
#pragma once

#include "ebbline/places.h"
#include "ebbline/study.h"

#include <span>
#include <vector>

namespace ebbline::report {

/// At the lowest moment, else at the one that says most.
struct Readings {
    double rest_v = 0;          ///< battery without its current: what is lost and what arrives
    double fridge_v = 0;        ///< between its terminals plus and minus
    double fridge_a = 0;        ///< in its supply
    std::vector<double> lost_v; ///< place by place, in the sense of the loop
    std::vector<double> amps;   ///< likewise; of several joints in one place the first one's

    [[nodiscard]] double lost() const; ///< V, all together
};

/// `network` is the one that the places were found in: of the same drawing as the examination's,
/// whose elements have the same names.
[[nodiscard]] Readings readPlaces(const Examination& examination,
                                  const Network& network,
                                  std::span<const MeterPlace> places);

/// Numbers, from 1, of the places that lose most; none where next to nothing is lost.
[[nodiscard]] std::vector<int> findMost(const Readings& readings);

} // namespace ebbline::report
