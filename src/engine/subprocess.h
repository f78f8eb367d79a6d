// SPDX-License-Identifier: MIT
// One child process with a socket to it. Passive: the pool decides when to read, write and kill.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>

namespace ebbline::engine {

class Subprocess {
public:
    /// Starts `program worker_argument N` with N its end of a connected socket, /dev/null as its
    /// input and outputs. Throws std::system_error.
    explicit Subprocess(const std::filesystem::path& program);
    /// Kills and reaps it if it still runs.
    ~Subprocess();
    Subprocess(const Subprocess&) = delete;
    Subprocess& operator=(const Subprocess&) = delete;

    [[nodiscard]] int socket() const { return m_socket; }
    /// Kills it if need be and says how it ended: "ended by signal 9", "exit status 3".
    [[nodiscard]] std::string reap(bool kill_first);

private:
    pid_t m_pid = -1;
    int m_socket = -1;
};

} // namespace ebbline::engine
