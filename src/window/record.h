// SPDX-License-Identifier: MIT
// Every text shown, with its place: for tests, and for who cannot see the window.
#pragma once

#include "ebbline/desk.h"

#include <fstream>
#include <string>

namespace ebbline::window {

class Record {
public:
    /// Without a file nothing is kept. Throws std::system_error where it cannot be written.
    explicit Record(const std::string& file);

    /// A line "frame <scene time> <draft|final|none> <now|old>", then a line for every text: left,
    /// top, width, height, the text itself; likewise, of no size, every terminal that a lead can be
    /// put on. Nothing where all is as it was.
    void keep(const Desk& desk, const Drawing& drawing);

private:
    std::ofstream m_file;
    std::string m_last;
};

} // namespace ebbline::window
