// SPDX-License-Identifier: MIT
// Small installations drawn in code, and scenes from the repository, for tests.
#pragma once

#include "ebbline/file.h"
#include "ebbline/installation.h"

#include <string>
#include <utility>
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

/// Battery, a lead to the fuse, a plus run, a minus run, fridge; cables of class 5 plain.
struct Feed {
    double fuse_m = 0.15; ///< run "lead": from the battery to the fuse
    double length_m = 4;  ///< run "plus": from there to the fridge
    Size plus;            ///< of both
    Size minus;           ///< run "minus": as long as both together
    double rating_a = 15;
    double holder_mohm = 2;
    double element_mohm = 4.7;
    double joint_mohm = 0.2; ///< each of the six
    double capacity_ah = 100;
};
[[nodiscard]] Installation feed(const Feed& feed);
/// A part more, joined by short thick cables: {"fridge.plus", "pump.plus"}.
void addPart(Installation& installation,
             const std::string& id,
             Body body,
             const std::vector<std::pair<Terminal, Terminal>>& cables);

/// Names of the scenes in the repository, sorted: "quay-01.toml".
[[nodiscard]] std::vector<std::string> sceneNames();
/// A scene of the repository.
[[nodiscard]] Installation scene(const std::string& name);

/// A run of an installation that is looked up by id, to be changed.
[[nodiscard]] Run& runOf(Installation& installation, const std::string& id);
/// The judged controller, to be changed.
[[nodiscard]] Controller& unitOf(Installation& installation);

} // namespace ebbline::drawn
