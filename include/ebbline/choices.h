// SPDX-License-Identifier: MIT
// Which scenes and lessons one can open from here.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace ebbline {

/// A file that can be opened.
struct Choice {
    std::filesystem::path path;
    std::string title; ///< its own, or its name where it has none
    bool is_lesson = false;
    bool operator==(const Choice&) const = default;
};

namespace desk {

/// What a file calls itself; nothing where it is neither a scene nor a lesson.
[[nodiscard]] std::optional<Choice> choiceOf(const std::filesystem::path& path);

/// What lies in a folder and in its folder of lessons, by name: at most 200 files, of at most 4
/// MiB. What is neither a scene nor a lesson is left out.
[[nodiscard]] std::vector<Choice> findChoices(const std::filesystem::path& folder);

/// Files that were opened before, the latest first, at most ten; those that are gone are left out.
/// They are kept below $XDG_STATE_HOME, else ~/.local/state.
[[nodiscard]] std::vector<std::filesystem::path> recentFiles();
/// Puts one first. Where nothing can be kept nothing is.
void rememberFile(const std::filesystem::path& path);

} // namespace desk
} // namespace ebbline
