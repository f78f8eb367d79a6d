// SPDX-License-Identifier: MIT
// One child process with a socket to it. Passive: the pool decides when to read, write and kill.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>

namespace ebbline::engine {

class Subprocess {
public:
    /// Starts `program worker_argument N` with N its end of a connected socket, /dev/null as its
    /// input and outputs. The kernel kills it when the calling thread ends. Throws
    /// std::system_error.
    explicit Subprocess(const std::filesystem::path& program);
    /// Kills and reaps it if it still runs.
    ~Subprocess();
    Subprocess(const Subprocess&) = delete;
    Subprocess& operator=(const Subprocess&) = delete;

    [[nodiscard]] int socket() const { return m_socket; }
    /// How it ended ("ended by signal 9", "exit status 3"), if it does within `grace`. In any case
    /// it is gone afterwards: killed and reaped.
    std::optional<std::string> reap(std::chrono::milliseconds grace);

private:
    pid_t m_pid = -1;
    int m_socket = -1;
};

} // namespace ebbline::engine
