// SPDX-License-Identifier: MIT
// The window's frames, on whatever screen there is.
#pragma once

#include <filesystem>

namespace ebbline::bench {

/// Rows of what a frame takes while sixty parts are played, and how soon the first is shown.
/// Everything is written below the folder.
void benchWindow(const std::filesystem::path& folder);

} // namespace ebbline::bench
