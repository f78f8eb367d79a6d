// SPDX-License-Identifier: MIT
// How a number of a run or a joint reaches its field.
#include "ebbline/keys.h"

#include <array>

namespace ebbline::installation {
namespace {

constexpr std::array<RunNumber, 7> run_numbers{
    {{.name = "length_m", .optional = &Run::length_m},
     {.name = "spare_m", .number = &Run::spare_m},
     {.name = "inductance_uh", .optional = &Run::inductance_uh},
     {.name = "apart_mm", .number = &Run::apart_mm},
     {.name = "over_metal_mm", .number = &Run::over_metal_mm},
     {.name = "broken_pct", .number = &Run::broken_pct},
     {.name = "ambient_c", .optional = &Run::ambient_c}}};

constexpr std::array<JointNumber, 6> joint_numbers{
    {{.name = "resistance_mohm", .optional = &Joint::resistance_mohm},
     {.name = "film_mohm", .number = &Joint::film_mohm},
     {.name = "film_v", .number = &Joint::film_v},
     {.name = "opens_per_min", .number = &Joint::opens_per_min},
     {.name = "opens_ms", .number = &Joint::opens_ms},
     {.name = "opens_seed", .number = &Joint::opens_seed}}};

} // namespace

std::span<const RunNumber> runNumbers() {
    return run_numbers;
}

std::span<const JointNumber> jointNumbers() {
    return joint_numbers;
}

} // namespace ebbline::installation
