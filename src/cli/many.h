// SPDX-License-Identifier: MIT
// The command that runs many starts into a table.
#pragma once

#include "commands.h"

namespace ebbline::cli {

struct ManyOptions {
    SceneOptions scene;
    std::string each;         ///< file of cases
    std::string output = "-"; ///< .csv, .jsonl, or - for CSV on standard output
    bool draft = false;
};
[[nodiscard]] ExitCode many(const ManyOptions& options);

} // namespace ebbline::cli
