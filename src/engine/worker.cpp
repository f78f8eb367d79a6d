// SPDX-License-Identifier: MIT
// The life of a worker: start the simulator behind walls, greet, answer jobs, end.
#include "protocol.h"
#include "sandbox.h"
#include "spice.h"

#include "ebbline/engine.h"

#include <poll.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <exception>
#include <optional>
#include <string>
#include <string_view>

namespace ebbline::engine {
namespace {

void send(int socket, const Frame& frame) {
    const std::string bytes = encode(frame);
    std::string_view rest = bytes;
    while (!rest.empty()) {
        const ssize_t sent = ::send(socket, rest.data(), rest.size(), MSG_NOSIGNAL);
        if (sent < 0 && errno == EINTR)
            continue;
        if (sent <= 0)
            _exit(0); // nobody listens any more
        rest.remove_prefix(static_cast<std::size_t>(sent));
    }
}

/// The next frame; nothing when the pool has closed the socket.
std::optional<Frame> receive(int socket, FrameReader& reader) {
    for (;;) {
        if (auto frame = reader.next())
            return frame;
        std::array<char, 65536> buffer{};
        const ssize_t got = recv(socket, buffer.data(), buffer.size(), 0);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return std::nullopt;
        reader.feed({buffer.data(), static_cast<std::size_t>(got)});
    }
}

/// Only once the private folder is gone again: killed before that, it would be left behind.
void dieWithParent(int socket) {
    prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0);
    // A parent that was gone before that line has closed the socket.
    pollfd entry{socket, 0, 0};
    if (poll(&entry, 1, 0) != 0)
        _exit(0);
}

/// Why there is no simulator; empty when there is one, behind its walls.
std::string whyNotStarted() {
    try {
        const PrivateFolder folder;
        startSpice();
    } catch (const std::exception& error) {
        return std::string("the simulator did not start: ") + error.what();
    }
    confine();
    return "";
}

Frame answer(const Job& job, const std::string& obstacle) {
    if (!obstacle.empty())
        return makeAnswer(NotSolved{.reason = obstacle});
    Frame frame = makeAnswer(runSpice(job));
    if (frame.payload.size() > longest_payload)
        return makeAnswer(
            NotSolved{.reason = "the solution has " + std::to_string(frame.payload.size()) +
                                " bytes, expected at most " + std::to_string(longest_payload)});
    return frame;
}

void answerJobs(int socket, const std::string& obstacle) {
    FrameReader reader;
    while (const auto frame = receive(socket, reader)) {
        send(socket, answer(readJob(*frame), obstacle));
        if (mustEnd())
            return;
    }
}

} // namespace

int runWorker(int socket) {
    // Ctrl-C reaches the whole foreground group; the pool decides what becomes of its workers.
    std::signal(SIGINT, SIG_IGN);
    try {
        const std::string obstacle = whyNotStarted();
        dieWithParent(socket);
        send(socket, makeHello());
        answerJobs(socket, obstacle);
    } catch (const std::exception&) {
        _exit(1);
    }
    // Without destructors: the library's own clean-up is not safe after every kind of failure.
    _exit(0);
}

} // namespace ebbline::engine
