// SPDX-License-Identifier: MIT
// Many starts, one after the other, of each only the figures.
#pragma once

#include "ebbline/cases.h"
#include "ebbline/study.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>

namespace ebbline {

/// What one of many starts came to. Absent values are undefined, never 0.
struct Row {
    SingleCase what;
    std::string error; ///< why there is nothing else, in the reader's language
    Outcome outcome = Outcome::NotPowered;
    Verdict verdict;
    std::optional<double> lowest_v; ///< these as in Start
    std::optional<double> lowest_at_s;
    std::optional<double> sensed_lowest_v;
    std::optional<double> inrush_a;
    std::optional<double> peak_a;
    std::optional<double> running_a;
    std::optional<double> running_v;
    std::optional<double> loop_ohm; ///< supply loop out and back, battery left out
};

namespace study {

/// What many starts are made of.
struct ManySettings {
    Accuracy accuracy = Accuracy::Final;
    std::size_t first = 0; ///< cases before this one were run before
};

/// Runs the first attempt of every case, and the held-off twin of each that trips, and hands out
/// the rows in the order of the cases. A case that cannot be built or solved is a row with its
/// error. False when `stop` was requested.
[[nodiscard]] bool runMany(Engine& engine,
                           const Installation& installation,
                           const Models& models,
                           const Cases& cases,
                           const ManySettings& settings,
                           const std::function<void(const Row&)>& take,
                           const std::stop_token& stop);

} // namespace study
} // namespace ebbline
