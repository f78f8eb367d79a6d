// SPDX-License-Identifier: MIT
// Runs of the real engine for tests.
#pragma once

#include "ebbline/engine.h"
#include "ebbline/start.h"
#include "ebbline/study.h"

#include <functional>
#include <span>
#include <string>
#include <vector>

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

/// One of many runs.
struct Wanted {
    Installation installation;
    RunSettings settings;
    std::function<void(Netlist&)> change; ///< of its circuit, before it runs; may be empty
    bool reduced = true;
};
/// All of them over two workers, a few at a time; `take` is told each with its index, in order.
void runMany(std::span<const Wanted> wanted, const std::function<void(std::size_t, Run)>& take);
/// The starts alone, without their waveforms.
[[nodiscard]] std::vector<Start> startsOf(std::span<const Wanted> wanted);

/// Whether sanitizers watch, which makes everything ten times slower: then random tests draw a
/// fifth.
[[nodiscard]] constexpr bool isSanitised() {
#if defined(__SANITIZE_ADDRESS__)
    return true;
#elif defined(__has_feature)
    return __has_feature(address_sanitizer);
#else
    return false;
#endif
}

[[nodiscard]] Examination examine(const Installation& installation);
/// The same without the loop budget, which takes most of the time.
[[nodiscard]] Examination examineBriefly(const Installation& installation);

/// Processes whose parent is `parent`, zombies included.
[[nodiscard]] std::vector<int> childrenOf(int parent);

/// Standard output and exit status of the built program.
struct Output {
    std::string text;
    int status = 0;
};
[[nodiscard]] Output program(const std::string& arguments);

} // namespace ebbline::runs
