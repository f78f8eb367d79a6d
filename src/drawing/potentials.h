// SPDX-License-Identifier: MIT
// What is left above the cut-out along each cable of the supply loop.
#pragma once

#include "figures.h"
#include "plan_layout.h"

#include <optional>

namespace ebbline::drawing {

/// Along a cable from its `from` end to its `to` end, as a share of what there is at rest: 1 full,
/// 0 and less: nothing left.
struct Fill {
    double from = 0;
    double to = 0;
    /// Share of the cable's length at which nothing is left any more, from the fuller end.
    [[nodiscard]] std::optional<double> emptyFrom() const;
    bool operator==(const Fill&) const = default;
};

/// For a twin between its cores; for a lone plus conductor against battery minus, less the whole
/// loss of the minus side. Nothing for other runs.
[[nodiscard]] std::optional<Fill> fillOf(const Figures& figures, const Trace& trace);

/// Volts lost in all conductors of a run on the supply loop.
[[nodiscard]] double lossOf(const Figures& figures, const Run& run);

} // namespace ebbline::drawing
