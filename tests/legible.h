// SPDX-License-Identifier: MIT
// Whether a drawing can be read: its texts apart from each other, on the sheet, clear of lines.
#pragma once

#include "ebbline/drawing.h"

#include <string>
#include <string_view>
#include <vector>

namespace ebbline::legible {

/// One sentence for every text that overlaps another, leaves the sheet, lies over a line or the
/// edge of a filled cable, or is painted over.
[[nodiscard]] std::vector<std::string> findFaults(const Drawing& drawing);

/// The same of a drawing over whose pictures something lies on purpose, groups of that role: their
/// own faults, and what they cut through. What they cover wholly is not looked at.
[[nodiscard]] std::vector<std::string> findFaultsOver(const Drawing& drawing,
                                                      std::string_view role);

/// The labels of all groups of a role; of all groups for "".
[[nodiscard]] std::vector<Label> labelsOf(const Drawing& drawing, std::string_view role = "");
/// Whether a text stands in one of them; a space matches one that does not break as well.
[[nodiscard]] bool hasText(const std::vector<Label>& labels, std::string_view text);
/// The text with spaces that break.
[[nodiscard]] std::string plain(std::string text);

/// Least contrast of a text with the ground it stands on.
[[nodiscard]] double leastTextContrast(const Drawing& drawing);
/// Least contrast with its ground of a line that carries meaning (rulers and grids do not).
[[nodiscard]] double leastLineContrast(const Drawing& drawing);

} // namespace ebbline::legible
