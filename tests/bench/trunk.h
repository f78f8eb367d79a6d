// SPDX-License-Identifier: MIT
// Scenes of any size.
#pragma once

#include <string>

namespace ebbline::bench {

/// A scene with `parts` parts: a trunk of splices, at every tenth one a load on cables of its own.
[[nodiscard]] std::string sceneOf(int parts);

} // namespace ebbline::bench
