// SPDX-License-Identifier: MIT
// Which remedies apply to a drawing, read from the drawing itself.
#pragma once

#include "ebbline/remedies.h"

#include <optional>
#include <set>
#include <string>
#include <utility>

namespace ebbline {

using NamedRemedies = std::set<std::pair<RemedyKind, std::string>>;

/// Every kind that applies, with what it is done to; empty where it starts clear.
[[nodiscard]] NamedRemedies expectRemedies(const Installation& drawn, const Examination& found);

/// A joint by its path: "twin.1.from".
[[nodiscard]] std::optional<Joint> findJoint(Installation drawn, const std::string& name);

} // namespace ebbline
