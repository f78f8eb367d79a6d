// SPDX-License-Identifier: MIT
// The command that follows a day of cycling.
#pragma once

#include "commands.h"

namespace ebbline::cli {

struct HoursOptions {
    SceneOptions scene;
    std::string json; ///< as of StartOptions
    std::string csv;  ///< file, "-" for standard output, empty: none
};
[[nodiscard]] ExitCode hours(const HoursOptions& options);

} // namespace ebbline::cli
