// SPDX-License-Identifier: MIT
// Walls around the simulator in a worker: a private folder, and what the kernel can take away.
#pragma once

#include <filesystem>

namespace ebbline::engine {

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

/// From here on: no file can be opened (Landlock), no program started, no process made, no
/// connection opened, no other process touched (seccomp). What the kernel lacks is left out.
void confine();

} // namespace ebbline::engine
