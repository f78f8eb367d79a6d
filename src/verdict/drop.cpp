// SPDX-License-Identifier: MIT
// Drop formulas as published; the simulation does not use them.
#include "ebbline/verdict.h"

namespace ebbline::verdict {

double smallCraftDrop(double amps, double out_and_back_m, double area_mm2) {
    return 0.0164 * amps * out_and_back_m / area_mm2;
}

double landDrop(double amps, double one_way_m, double area_mm2) {
    return 2 * 0.0225 * amps * one_way_m / area_mm2;
}

} // namespace ebbline::verdict
