// SPDX-License-Identifier: MIT
// What the plan is made of: laid out, drawn, and then labelled.
#pragma once

#include "figures.h"
#include "pictures.h"
#include "plan_layout.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline::drawing {

/// A joint that loses enough to be marked, and where it lies.
struct JointMark {
    const Portion* loss = nullptr;
    Point at;
};

struct PlanScene {
    explicit PlanScene(const Site& where);

    const Site& site;
    Canvas& canvas;
    double unit;
    double small = 0;            ///< unit of symbols and cables
    std::optional<Network> seen; ///< of a bare plan, with what an eye does not see left out
    const Network& network;
    Figures now;
    std::vector<Figures> beside; ///< of the starts or moments that are drawn as outlines
    std::vector<Portion> portions;
    std::string culprit; ///< id of the thing that is named largest
    Box area;            ///< inside the sheet's margin
    Box inner;           ///< the same without the foot
    PlanLayout layout;
    std::vector<std::vector<Point>> hatched; ///< per trace: where nothing is left in it
    std::vector<JointMark> joints;

    [[nodiscard]] const Installation& installation() const { return network.installation; }
};

/// Writes all names and losses, the most important first: what comes later finds less room.
void labelPlan(const PlanScene& plan);

} // namespace ebbline::drawing
