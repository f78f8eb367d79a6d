// SPDX-License-Identifier: MIT
// Names and lengths of what a survey points at.
#pragma once

#include "ebbline/survey.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace ebbline::report {

[[nodiscard]] const Element& elementOf(const Network& network, int index);
[[nodiscard]] std::vector<std::string> namesOf(const Network& network,
                                               std::span<const int> elements);
[[nodiscard]] std::vector<int> elementsOf(std::span<const Step> way);
/// Length one way of the run or lead that a conductor belongs to.
[[nodiscard]] std::optional<double> lengthOf(const Network& network, const Element& conductor);

/// As drawn.
[[nodiscard]] Size sizeOf(const Network& network, const Element& conductor);

} // namespace ebbline::report
