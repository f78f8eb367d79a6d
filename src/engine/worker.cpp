// SPDX-License-Identifier: MIT
// The life of a worker: start the simulator behind walls, greet, answer jobs, end.
#include "protocol.h"
#include "sandbox.h"
#include "spice.h"

#include "ebbline/engine.h"

#include <sys/prctl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <optional>
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

void dieWithParent() {
    prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0);
    // Ctrl-C reaches the whole foreground group; the pool decides what becomes of its workers.
    std::signal(SIGINT, SIG_IGN);
}

void startConfined() {
    {
        const PrivateFolder folder;
        startSpice();
    }
    confine();
}

void answerJobs(int socket) {
    FrameReader reader;
    while (const auto frame = receive(socket, reader)) {
        send(socket, makeAnswer(runSpice(readJob(*frame))));
        if (mustEnd())
            return;
    }
}

} // namespace

int runWorker(int socket) {
    dieWithParent();
    try {
        startConfined();
        send(socket, makeHello());
        answerJobs(socket);
    } catch (const std::exception&) {
        _exit(1);
    }
    // Without destructors: the library's own clean-up is not safe after every kind of failure.
    _exit(0);
}

Solution runHere(const Job& job) {
    static const bool started = [] {
        startConfined();
        return true;
    }();
    static_cast<void>(started);
    return runSpice(job);
}

} // namespace ebbline::engine
