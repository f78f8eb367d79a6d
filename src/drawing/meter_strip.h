// SPDX-License-Identifier: MIT
// What a meter shows, as a strip of the time chart.
#pragma once

#include "scale.h"

#include "ebbline/canvas.h"

namespace ebbline::drawing {

/// Where the strip goes, on the chart's own time.
struct MeterStripPlace {
    const Scale& time; ///< scene time to pixels
    Box box;
    double left = 0;   ///< of the numbers of its scale
    double from_s = 0; ///< what is earlier does not count for its scale
    double at_s = 0;   ///< the moment of the other pictures
    double unit = 13;
};

void drawMeterStrip(Canvas& canvas, const MeterTrace& trace, const MeterStripPlace& place);

} // namespace ebbline::drawing
