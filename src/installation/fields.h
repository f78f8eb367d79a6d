// SPDX-License-Identifier: MIT
// How a key reaches its field.
#pragma once

#include "ebbline/installation.h"

#include <array>
#include <functional>
#include <optional>
#include <vector>

namespace ebbline::installation {

struct Field {
    Key key;
    std::function<std::optional<Value>(const Part&)> get;
    std::function<void(Part&, const Value&)> set;
};

/// Every key of every part kind, with its field.
[[nodiscard]] const std::vector<Field>& fields();

} // namespace ebbline::installation
