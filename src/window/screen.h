// SPDX-License-Identifier: MIT
// How the sheet is shown in the window.
#pragma once

#include "ebbline/desk.h"

#include <algorithm>

namespace ebbline::window {

struct Screen {
    unsigned width = 1280; ///< pixels
    unsigned height = 800;
    double scale = 1; ///< pixels for each of the sheet's, as wanted
    Paper paper = Paper::Light;

    /// As wanted, or as small as the sheet needs to keep its least size.
    [[nodiscard]] double zoom() const {
        return std::min({scale, width / desk::least_width, height / desk::least_height});
    }
    [[nodiscard]] View view() const { return {width / zoom(), height / zoom(), paper}; }
};

} // namespace ebbline::window
