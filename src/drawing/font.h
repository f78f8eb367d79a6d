// SPDX-License-Identifier: MIT
// How wide a text is in the font it will be set in.
#pragma once

#include "ebbline/canvas.h"

#include <string>
#include <string_view>

namespace ebbline::drawing {

/// Above and below the baseline, as shares of the size; room for accents and descenders.
inline constexpr double font_rise = 0.80;
inline constexpr double font_fall = 0.24;
/// Height of a capital, as a share of the size.
inline constexpr double font_capital = 0.729;

/// The family that was asked for; what the system has in its place is found by fontconfig.
inline constexpr const char* font_family = "DejaVu Sans Condensed";

/// Width in pixels at `size`. A character that the font lacks counts as wide as in the font that
/// fontconfig takes instead.
[[nodiscard]] double textWidth(std::string_view utf8, double size, bool bold);

/// The code points of a text; broken UTF-8 counts as one replacement character a byte.
[[nodiscard]] std::u32string codePoints(std::string_view utf8);
[[nodiscard]] std::string utf8Of(std::u32string_view text);

} // namespace ebbline::drawing
