// SPDX-License-Identifier: MIT
// What the command line can do.
#pragma once

#include "ebbline/error.h"

#include <string>

namespace ebbline::cli {

struct StartOptions {
    std::string scene;  ///< empty: the embedded one
    std::string models; ///< folder; empty: the embedded ones
    std::string json;   ///< file, "-" for standard output, empty: text instead
    std::string expect; ///< outcome; empty: any
};
[[nodiscard]] ExitCode start(const StartOptions& options);

struct DeckOptions {
    std::string scene;
    std::string models;
    std::string output = "-";
    int attempts = 3;
    bool held_off = false;
    bool full = false;
};
[[nodiscard]] ExitCode deck(const DeckOptions& options);

} // namespace ebbline::cli
