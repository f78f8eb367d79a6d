// SPDX-License-Identifier: MIT
// Whether everything that is named exists.
#pragma once

#include "problems.h"

#include "ebbline/installation.h"

#include <map>
#include <string>

namespace ebbline::file {

/// Where ids and terminal references stand in the text.
using Places = std::map<std::string, toml::source_region>;

/// Checks run ends against parts and their terminals, and stacks against run ends.
void checkReferences(const Installation& installation, const Places& places, Problems& problems);

} // namespace ebbline::file
