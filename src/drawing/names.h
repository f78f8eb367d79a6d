// SPDX-License-Identifier: MIT
// What things are called in the pictures.
#pragma once

#include "ebbline/network.h"

#include <string>

namespace ebbline::drawing {

/// The name given in the scene, else what it is: "15 A fuse".
[[nodiscard]] std::string nameOf(const Part& part);
/// "2.5 mm²", "AWG 12".
[[nodiscard]] std::string nameOf(const Size& size);
/// "1.5 mm² twin, 9.1 m"; the length is one way.
[[nodiscard]] std::string nameOf(const Run& run);
/// "corroded crimp at fridge plus", of the joint at a run's end or a part's own.
[[nodiscard]] std::string nameOfJoint(const Installation& installation, const std::string& joint);
/// The same without where it is: "corroded crimp".
[[nodiscard]] std::string nameOfJointAlone(const Installation& installation,
                                           const std::string& joint);
/// The name as far as its first comma: "1.5 mm² twin".
[[nodiscard]] std::string briefly(const std::string& name);
/// "Fridge plus", "15 A fuse": where a run ends.
[[nodiscard]] std::string placeOf(const Installation& installation, const Terminal& terminal);
/// A length with no more decimals than it needs: "9.1 m".
[[nodiscard]] std::string metres(double length_m);

/// The joint of that name; nothing when an element of that name is no joint of the scene.
[[nodiscard]] std::optional<Joint> findJoint(const Installation& installation,
                                             const std::string& name);

} // namespace ebbline::drawing
