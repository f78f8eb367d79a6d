// SPDX-License-Identifier: MIT
// Desks on scenes of the repository, with the built program's workers.
#pragma once

#include "ebbline/desk.h"

#include <memory>
#include <string>

namespace ebbline::desks {

inline constexpr View laptop{1280, 800};

[[nodiscard]] Document documentOf(const std::string& name);
[[nodiscard]] std::unique_ptr<Desk> emptyDesk();
[[nodiscard]] std::unique_ptr<Desk> deskOf(const std::string& name);

/// Until the final run of what stands there has come.
void settle(Desk& desk);

/// Everything that can be read on a sheet.
[[nodiscard]] std::string allTexts(const desk::Sheet& sheet);
[[nodiscard]] bool says(const Desk& desk, const std::string& text);

} // namespace ebbline::desks
