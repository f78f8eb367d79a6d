// SPDX-License-Identifier: MIT
// The first lines of every file: the format's number and the kind of file.
#pragma once

#include "parse.h"

#include <string>

namespace ebbline::file {

/// Whether the first key is `ebbline = 1` and the file of that kind; adds a problem where not, and
/// then the file is not to be read any further. A scene need not say that it is one.
[[nodiscard]] bool
fitsFormat(const toml::table& table, const std::string& what, Problems& problems);

} // namespace ebbline::file
