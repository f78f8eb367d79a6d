// SPDX-License-Identifier: MIT
// A film on the metal of a joint.
#include "ebbline/network.h"

#include <algorithm>
#include <cmath>

namespace ebbline::network {

double jointOhm(const Element& joint, double amps) {
    if (joint.film_ohm == 0)
        return joint.ohm;
    const double over = std::max(std::abs(amps) * joint.film_ohm / joint.film_v, 1e-6);
    return joint.ohm - joint.film_ohm + joint.film_ohm * std::tanh(over) / over;
}

} // namespace ebbline::network
