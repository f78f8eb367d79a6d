// SPDX-License-Identifier: MIT
// How sure a start is: the margin, and the figures it rests on.
#pragma once

#include "ebbline/start.h"

#include <optional>
#include <string>
#include <string_view>

namespace ebbline {

/// Whether the start holds when estimated values are a little worse.
enum class Margin {
    Clear,    ///< starts with more to spare than the band of what is estimated
    OnlyJust, ///< starts, inside that band
    No,       ///< does not start
};
[[nodiscard]] std::string_view nameOf(Margin margin);

struct Verdict {
    Margin margin = Margin::No;
    double cut_out_v = 0; ///< the low-voltage cut-out that applies at this nominal voltage
    double cut_in_v = 0;
    /// Lowest filtered voltage of the first attempt with the cut-out held off.
    std::optional<double> held_off_lowest_v;
    /// That minus the cut-out: to spare, or short by. Absent with a reason where undefined.
    std::optional<double> headroom_v;
    std::string no_headroom_reason; ///< empty when headroom_v is there
};

namespace verdict {

/// Drop in V by the small-craft formula of ISO 13297 (before: ISO 10133): 0.0164 I L / S, with
/// the conductor's length out and back. 16 to 25 % below real flexible cable.
[[nodiscard]] double smallCraftDrop(double amps, double out_and_back_m, double area_mm2);

/// Drop in V of a two-wire direct-current circuit by IEC 60364-5-52 annex G: 2 * 0.0225 I l / S
/// with the length one way (constant from memory).
[[nodiscard]] double landDrop(double amps, double one_way_m, double area_mm2);

/// Judges a first attempt. `held_off` is the same start with the cut-out held off, needed where
/// the outcome is Trips; where it starts, the cut-out did not act and the start itself serves.
[[nodiscard]] Verdict
judge(const Installation& installation, const Start& start, const Start* held_off);

/// Band of what is estimated, V: an unmeasured unit, joint or battery may be so much worse.
inline constexpr double estimate_band_v = 0.3;

} // namespace verdict
} // namespace ebbline
