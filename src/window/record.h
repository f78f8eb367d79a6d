// SPDX-License-Identifier: MIT
// Every text shown, with its place: for tests, and for who cannot see the window.
#pragma once

#include "ebbline/desk.h"

#include <fstream>
#include <string>

namespace ebbline::window {

/// What a frame took, seconds.
struct FrameCost {
    double layout_s = 0;
    double painting_s = 0;
    double display_s = 0;
};

class Record {
public:
    /// Without a file nothing is kept. Throws std::system_error where it cannot be written.
    explicit Record(const std::string& file);

    /// A line "frame <scene time> <draft|final|none> <now|old> <layout> <painting> <display>", the
    /// last three in milliseconds, then a line for every text: left, top, width, height, the text
    /// itself; likewise, of no size, every terminal that a lead can be put on. Nothing where all is
    /// as it was.
    void keep(const Desk& desk, const Drawing& drawing, const FrameCost& cost);

private:
    std::ofstream m_file;
    std::string m_heading; ///< of the frame written last
    std::string m_last;    ///< its texts
};

} // namespace ebbline::window
