// SPDX-License-Identifier: MIT
// Runs of the real engine for tests.
#pragma once

#include "ebbline/engine.h"
#include "ebbline/start.h"
#include "ebbline/study.h"

#include <string>

namespace ebbline::runs {

/// A pool on the built program.
[[nodiscard]] std::unique_ptr<Engine> makePool(int workers = 2);

/// A solved run with what it came from.
struct Run {
    Netlist netlist;
    Solved solved;
    Start start;
};
[[nodiscard]] Run
run(const Installation& installation, const RunSettings& settings, bool reduced = true);

[[nodiscard]] Examination examine(const Installation& installation);
/// The same without the loop budget, which takes most of the time.
[[nodiscard]] Examination examineBriefly(const Installation& installation);

/// Standard output and exit status of the built program.
struct Output {
    std::string text;
    int status = 0;
};
[[nodiscard]] Output program(const std::string& arguments);

} // namespace ebbline::runs
