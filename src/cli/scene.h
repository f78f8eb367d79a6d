// SPDX-License-Identifier: MIT
// The installation that a command line names, with everything that is different about it.
#pragma once

#include "commands.h"

#include "ebbline/file.h"

namespace ebbline::cli {

/// What was read, and what is to be looked at: the drawing with its own faults, then the named
/// conditions, variants and set-ups, then single keys.
struct Scene {
    Document document;
    Models models; ///< with the catalogues of the scene's own
    Installation installation;
};

/// Throws SceneError for what is wrong in the files or on the command line.
[[nodiscard]] Scene readScene(const SceneOptions& options);

/// By what the installation differs from what the file says, as it was asked for.
[[nodiscard]] std::vector<std::string> changesOf(const Scene& scene, const SceneOptions& options);

/// Writes to a file, or to standard output for "-". Throws std::system_error.
void write(const std::string& path, const std::string& text);

} // namespace ebbline::cli
