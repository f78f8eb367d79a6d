// SPDX-License-Identifier: MIT
// How large a metre is on the plan.
#pragma once

#include "plan_layout.h"

#include <limits>
#include <optional>

namespace ebbline::drawing {

/// The smallest rectangle of metres around all that has a place.
struct Reach {
    double left = std::numeric_limits<double>::infinity();
    double right = -std::numeric_limits<double>::infinity();
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();

    void include(Position place) {
        left = std::min(left, place.x_m);
        right = std::max(right, place.x_m);
        low = std::min(low, place.y_m);
        high = std::max(high, place.y_m);
    }
};

/// The scale at which everything with a place fits; nothing where fewer than two parts have one.
[[nodiscard]] std::optional<MetreScale>
findScale(const Installation& installation, const Box& area, double unit);

} // namespace ebbline::drawing
