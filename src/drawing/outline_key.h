// SPDX-License-Identifier: MIT
// Which dashes are whose, in a row of a chart.
#pragma once

#include "ebbline/canvas.h"

#include <cstddef>
#include <string>
#include <vector>

namespace ebbline::drawing {

/// An outline that is to be named.
struct OutlineName {
    std::size_t which = 0; ///< 0: the first of the moment's outlines
    std::string name;
};

/// A sample of each one's dashes and its name, from left to right within the box, whose lower edge
/// is the texts' baseline. False where there is no room, and nothing is drawn.
bool drawOutlineKey(Canvas& canvas,
                    const std::vector<OutlineName>& outlines,
                    const Box& box,
                    double unit);

} // namespace ebbline::drawing
