// SPDX-License-Identifier: MIT
// Small installations drawn in code, and scenes from the repository, for tests.
#pragma once

#include "ebbline/file.h"
#include "ebbline/installation.h"

#include <string>
#include <vector>

namespace ebbline::drawn {

/// One battery, isolator, 15 A fuse, twin cable, fridge; every joint 0.3 mohm.
struct Loop {
    double length_m = 5;
    double area_mm2 = 2.5;
    std::string conductor = "class-5-tinned";
    double joint_mohm = 0.3;
    double charge_pct = 100;
};
[[nodiscard]] Installation loop(const Loop& loop);

/// Names of the scenes in the repository, sorted: "quay-01.toml".
[[nodiscard]] std::vector<std::string> sceneNames();
/// A scene of the repository.
[[nodiscard]] Installation scene(const std::string& name);

/// A run of an installation that is looked up by id, to be changed.
[[nodiscard]] Run& runOf(Installation& installation, const std::string& id);
/// The judged controller, to be changed.
[[nodiscard]] Controller& unitOf(Installation& installation);

} // namespace ebbline::drawn
