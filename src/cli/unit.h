// SPDX-License-Identifier: MIT
// The command that makes a controller from five numbers.
#pragma once

#include "commands.h"

#include "ebbline/unit.h"

namespace ebbline::cli {

struct UnitOptions {
    UnitFigures figures;
    std::string id = "my-fridge";
    std::string models; ///< folder; empty: the embedded ones
    std::string output; ///< file, "-" for standard output alone, empty: none
};
[[nodiscard]] ExitCode unit(const UnitOptions& options);

} // namespace ebbline::cli
