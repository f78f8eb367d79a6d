// SPDX-License-Identifier: MIT
// Files that travel inside the program: models, the first scene, the simulator's start-up file.
#pragma once

#include <span>
#include <string_view>

namespace ebbline::embedded {

struct File {
    std::string_view name; ///< without its folder: "battery.lib"
    std::string_view text;
    std::string_view sha256; ///< of the text, in hexadecimal digits
};

[[nodiscard]] std::span<const File> all();
/// It is a bug to ask for one that is not there.
[[nodiscard]] const File& findFile(std::string_view name);
/// The text of one.
[[nodiscard]] std::string_view find(std::string_view name);

} // namespace ebbline::embedded
