// SPDX-License-Identifier: MIT
// The first lines of every file: the format's number and the kind of file.
#pragma once

#include "parse.h"

#include <string>

namespace ebbline::file {

/// Throws SceneError unless the first key is `ebbline = 1` and the file is of that kind; a file of
/// a later format is not read any further. A scene need not say that it is one.
void requireFormat(const toml::table& table, const std::string& what, Problems& problems);

} // namespace ebbline::file
