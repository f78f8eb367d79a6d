// SPDX-License-Identifier: MIT
// How a number of a run reaches its field.
#include "ebbline/keys.h"

#include <array>

namespace ebbline::installation {
namespace {

constexpr std::array<RunNumber, 7> numbers{
    {{.name = "length_m", .optional = &Run::length_m},
     {.name = "spare_m", .number = &Run::spare_m},
     {.name = "inductance_uh", .optional = &Run::inductance_uh},
     {.name = "apart_mm", .number = &Run::apart_mm},
     {.name = "over_metal_mm", .number = &Run::over_metal_mm},
     {.name = "broken_pct", .number = &Run::broken_pct},
     {.name = "ambient_c", .optional = &Run::ambient_c}}};

} // namespace

std::optional<double> RunNumber::of(const Run& run) const {
    return number != nullptr ? std::optional(run.*number) : run.*optional;
}

void RunNumber::set(Run& run, std::optional<double> value) const {
    if (number != nullptr)
        run.*number = value.value_or(Run{}.*number);
    else
        run.*optional = value;
}

std::span<const RunNumber> runNumbers() {
    return numbers;
}

} // namespace ebbline::installation
