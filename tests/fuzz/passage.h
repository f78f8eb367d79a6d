// SPDX-License-Identifier: MIT
// One text through reader, graph and circuit, with every promise about them checked.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ebbline::fuzz {

/// How far a text came.
struct Passage {
    bool was_read = false;
    std::vector<std::string> circuits; ///< as drawn, with its faults, with each set of changes
    std::string broken;                ///< the promise that was broken; empty when none was
};

/// Reads the text as a scene. Refused, it must be with places and messages; read, it must become
/// circuits of finite numbers, also with its faults and with each of its sets of changes.
[[nodiscard]] Passage pass(std::string_view text);

} // namespace ebbline::fuzz
