// SPDX-License-Identifier: MIT
// Pieces of JSON that several commands write.
#pragma once

#include "ebbline/inquiry.h"

#include <nlohmann/json.hpp>

#include <optional>

namespace ebbline::report {

using Json = nlohmann::ordered_json;

[[nodiscard]] Json orNull(const std::optional<double>& value);
[[nodiscard]] Json toJson(const RuleFinding& finding);
[[nodiscard]] Json toJson(const Loss& loss);
[[nodiscard]] Json toJson(const Remedy& remedy);

} // namespace ebbline::report
