// SPDX-License-Identifier: MIT
// What the keys of a controller say of its box.
#include "ebbline/hours.h"

namespace ebbline::study {

BoxLoad boxOf(const Controller& unit) {
    return {.w_per_k = unit.box_w_per_k,
            .kj_per_k = unit.box_kj_per_k,
            .inside_c = unit.inside_c,
            .band_k = unit.band_k,
            .cop = unit.cop};
}

} // namespace ebbline::study
