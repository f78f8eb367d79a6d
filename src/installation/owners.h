// SPDX-License-Identifier: MIT
// Who is meant by the owner in a path.
#pragma once

#include "ebbline/installation.h"

#include <string>
#include <string_view>
#include <vector>

namespace ebbline::installation {

/// Cores that an owner names: "runs" all, "twin" all of its cores, "twin.2" one.
[[nodiscard]] std::vector<Core*> coresOf(Installation& installation, std::string_view owner);
/// Joints that an owner names: "joints" all, "twin.1.from" one.
[[nodiscard]] std::vector<Joint*> jointsOf(Installation& installation, std::string_view owner);
/// Switches that an owner names: "panel" all of its ways, "panel.2" one.
[[nodiscard]] std::vector<PanelWay*> waysOf(Installation& installation, const std::string& owner);
[[nodiscard]] std::vector<Part*> partsOf(Installation& installation, std::string_view owner);
[[nodiscard]] std::vector<Run*> runsOf(Installation& installation, std::string_view owner);

/// Every owner there is, for messages.
[[nodiscard]] std::vector<std::string> ownerNames(const Installation& installation);

/// What is wrong with the wiring: an id that is taken, a run that ends nowhere, a stack that lacks
/// a lug; nothing where all is well.
[[nodiscard]] std::optional<std::string> findBrokenWiring(const Installation& installation);

} // namespace ebbline::installation
