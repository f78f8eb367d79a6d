// SPDX-License-Identifier: MIT
// One picture at many moments, small: lines of SVG kept once, and each moment as what it changes.
#pragma once

#include <span>
#include <string>
#include <vector>

namespace ebbline::report {

/// The frames of one picture. A frame is a list of lines, and is stored as edits of the frame
/// before it, the first one of an empty list: again and again how many lines stay, how many go, how
/// many come in their place, and which.
struct Reel {
    std::vector<std::string> lines;              ///< each different one once
    std::vector<std::vector<std::size_t>> edits; ///< by frame
    bool operator==(const Reel&) const = default;
};

/// Of whole SVG texts, line by line.
[[nodiscard]] Reel encode(std::span<const std::string> frames);
/// All the frames again.
[[nodiscard]] std::vector<std::string> decode(const Reel& reel);

} // namespace ebbline::report
