// SPDX-License-Identifier: MIT
// Walls around the simulator in a worker: a private folder, and what the kernel can take away.
#pragma once

#include <sys/types.h>

#include <filesystem>

namespace ebbline::engine {

/// What the start-up file of a private folder sets, so that it can be asked whether it was read.
inline constexpr const char* start_up_variable = "ebbline_start_up";
inline constexpr const char* start_up_value = "read-from-the-private-folder";

/// A new empty folder that is the current one while the library starts and holds the only start-up
/// files it finds. It is removed again on destruction; the process stays in it, so nothing can be
/// created there afterwards and nothing is left behind.
class PrivateFolder {
public:
    PrivateFolder();
    ~PrivateFolder();
    PrivateFolder(const PrivateFolder&) = delete;
    PrivateFolder& operator=(const PrivateFolder&) = delete;

private:
    std::filesystem::path m_path;
};

/// Removes the private folder of a process that was killed before it could.
void removeLeftOver(pid_t process);

/// From here on: no file can be opened, made or removed (Landlock and seccomp), no program started,
/// no process made, no connection opened, no other process touched (seccomp). What the kernel lacks
/// is left out.
void confine();

} // namespace ebbline::engine
