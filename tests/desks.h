// SPDX-License-Identifier: MIT
// Desks with the starts of real scenes on them, for tests.
#pragma once

#include "ebbline/desk.h"

#include <memory>
#include <string>
#include <vector>

namespace ebbline::desks {

inline constexpr View laptop{1280, 800};

/// Without anything on it.
[[nodiscard]] std::unique_ptr<Desk> emptyDesk();
/// With a scene of the repository, its start asked for.
[[nodiscard]] std::unique_ptr<Desk> deskOf(const std::string& scene);
[[nodiscard]] Document documentOf(const std::string& scene);

/// Waits for the final run of what stands there.
void settle(Desk& desk);
/// Waits until it also says what would make it start.
void settleWhole(Desk& desk);

/// All that a sheet says, line by line.
[[nodiscard]] std::string allTexts(const desk::Sheet& sheet);
/// Whether the sheet of a laptop has a text.
[[nodiscard]] bool says(const Desk& desk, const std::string& text);

/// All; under sanitizers a fifth, as of other things that are many.
[[nodiscard]] std::vector<std::string> scenesToLookAt();

} // namespace ebbline::desks
