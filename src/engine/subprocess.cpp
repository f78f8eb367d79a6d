// SPDX-License-Identifier: MIT
// One child process with a socket to it.
#include "subprocess.h"

#include "sandbox.h"

#include "ebbline/engine.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <system_error>
#include <thread>

extern char** environ;

namespace ebbline::engine {
namespace {

[[noreturn]] void fail(int error, const char* what) {
    throw std::system_error(error, std::generic_category(), what);
}

/// The same open file above the three standard descriptors, which the child gets anew. They are
/// free for others where the program was started with closed ones.
int lift(int descriptor) {
    const int lifted = fcntl(descriptor, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    const int error = errno;
    close(descriptor);
    errno = error;
    return lifted;
}

/// The status of a process that ends within `grace`.
std::optional<int> wait(pid_t pid, std::chrono::milliseconds grace) {
    using namespace std::chrono_literals;
    const auto end = std::chrono::steady_clock::now() + grace;
    for (;;) {
        int status = 0;
        if (waitpid(pid, &status, WNOHANG) == pid)
            return status;
        if (std::chrono::steady_clock::now() >= end)
            return std::nullopt;
        std::this_thread::sleep_for(1ms);
    }
}

std::string describe(int status) {
    if (WIFSIGNALED(status))
        return "ended by signal " + std::to_string(WTERMSIG(status));
    return "exit status " + std::to_string(WEXITSTATUS(status));
}

/// Actions of the spawn, released on every way out.
class FileActions {
public:
    FileActions() { posix_spawn_file_actions_init(&m_actions); }
    ~FileActions() { posix_spawn_file_actions_destroy(&m_actions); }
    FileActions(const FileActions&) = delete;
    FileActions& operator=(const FileActions&) = delete;

    void silence(int descriptor, int mode) {
        posix_spawn_file_actions_addopen(&m_actions, descriptor, "/dev/null", mode, 0);
    }
    /// The same number in the child without its close-on-exec mark.
    void keep(int descriptor) {
        posix_spawn_file_actions_adddup2(&m_actions, descriptor, descriptor);
    }
    [[nodiscard]] const posix_spawn_file_actions_t* get() const { return &m_actions; }

private:
    posix_spawn_file_actions_t m_actions{};
};

} // namespace

Subprocess::Subprocess(const std::filesystem::path& program) {
    std::array<int, 2> ends{-1, -1};
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0)
        fail(errno, "socketpair");
    for (int& end : ends)
        end = lift(end);
    if (ends[0] < 0 || ends[1] < 0) {
        const int error = errno;
        for (const int end : ends)
            if (end >= 0)
                close(end);
        fail(error, "cannot start a worker");
    }
    FileActions actions;
    actions.silence(STDIN_FILENO, O_RDONLY);
    actions.silence(STDOUT_FILENO, O_WRONLY);
    actions.silence(STDERR_FILENO, O_WRONLY);
    actions.keep(ends[1]);
    std::string name = program.string();
    std::string argument = worker_argument;
    std::string socket = std::to_string(ends[1]);
    std::array<char*, 4> arguments{name.data(), argument.data(), socket.data(), nullptr};
    const int error =
        posix_spawn(&m_pid, name.c_str(), actions.get(), nullptr, arguments.data(), environ);
    close(ends[1]);
    m_socket = ends[0];
    if (error != 0) {
        close(m_socket);
        fail(error, "cannot start a worker");
    }
}

Subprocess::~Subprocess() {
    reap(std::chrono::milliseconds{0});
}

std::optional<std::string> Subprocess::reap(std::chrono::milliseconds grace) {
    if (m_socket >= 0)
        close(m_socket);
    m_socket = -1;
    if (m_pid < 0)
        return std::nullopt;
    const auto status = wait(m_pid, grace);
    if (!status) {
        kill(m_pid, SIGKILL);
        while (waitpid(m_pid, nullptr, 0) < 0 && errno == EINTR) {
        }
    }
    if (!status || WIFSIGNALED(*status))
        removeLeftOver(m_pid);
    m_pid = -1;
    return status ? std::optional(describe(*status)) : std::nullopt;
}

} // namespace ebbline::engine
