// SPDX-License-Identifier: MIT
// A worker that misbehaves as the first word of its job's circuit says: what a pool must survive.
#include "engine/protocol.h"

#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

using namespace ebbline;
using namespace ebbline::engine;

void sendBytes(int socket, const std::string& bytes) {
    static_cast<void>(send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL));
}

std::string announcing(std::uint32_t length) {
    std::string header(sizeof length, '\0');
    std::memcpy(header.data(), &length, sizeof length);
    return header + static_cast<char>(FrameKind::Solved);
}

std::string receiveTask(int socket) {
    FrameReader reader;
    for (;;) {
        if (const auto frame = reader.next()) {
            const std::string circuit = readJob(*frame).circuit;
            std::string task = circuit.substr(0, circuit.find(' '));
            if (task == "dawdle") // in the first order of elimination
                return circuit.find(" pivrel=0.1") != std::string::npos ? "hang" : "answer";
            return task;
        }
        std::array<char, 4096> buffer{};
        const ssize_t got = recv(socket, buffer.data(), buffer.size(), 0);
        if (got <= 0)
            std::exit(0);
        reader.feed({buffer.data(), static_cast<std::size_t>(got)});
    }
}

void misbehave(int socket, const std::string& task) {
    const std::string answer = encode(makeAnswer(Solved{{1.0, 2.0}, {{3.0, 4.0}}}));
    if (task == "die")
        raise(SIGKILL);
    if (task == "freeze")
        raise(SIGSTOP);
    if (task == "leave")
        std::exit(7);
    if (task == "truncate") {
        sendBytes(socket, answer.substr(0, answer.size() / 2));
        std::exit(0);
    }
    if (task == "babble")
        sendBytes(socket, std::string(64, '\xEE'));
    if (task == "boast")
        sendBytes(socket, announcing(1U << 30));
    if (task == "answer")
        sendBytes(socket, answer);
    if (task == "answer-and-leave") {
        sendBytes(socket, answer);
        std::exit(0);
    }
    if (task == "answer-twice")
        sendBytes(socket, answer + encode(makeAnswer(Solved{{1.0, 2.0}, {{5.0, 6.0}}})));
    if (task == "answer-less")
        sendBytes(socket, encode(makeAnswer(Solved{{1.0, 2.0}, {}})));
    if (task == "cut-off") {
        close(socket);
        pause();
    }
    if (task == "hang" || task == "babble" || task == "boast")
        pause();
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 3)
        return 2;
    const int socket = std::atoi(argv[2]);
    const bool is_old = std::getenv("EBBLINE_FAKE_VERSION") != nullptr;
    sendBytes(socket, encode(makeHello(is_old ? protocol_version + 1 : protocol_version)));
    for (;;)
        misbehave(socket, receiveTask(socket));
}
