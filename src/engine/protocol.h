// SPDX-License-Identifier: MIT
// What goes over the socket between the pool and a worker.
//
// A frame is a 32-bit length, one byte of kind, and a payload of that length, all in the machine's
// own byte order: both ends are the same executable. The worker speaks first: Hello with the
// protocol's version, which must match exactly. Then each Job is answered by one Solved or
// NotSolved, in order. Doubles travel as their bytes, so nothing is rounded. When the pool closes
// the socket the worker ends. Exceptions never cross: a worker turns them into NotSolved.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace ebbline::engine {

/// Increment with every change to frames or payloads.
inline constexpr std::uint32_t protocol_version = 3;
/// Longest payload either side takes; a longer announcement is refused before any allocation.
inline constexpr std::uint32_t longest_payload = 1U << 29;

enum class FrameKind : std::uint8_t { Hello = 1, Job = 2, Solved = 3, NotSolved = 4 };

struct Frame {
    FrameKind kind = FrameKind::Hello;
    std::string payload;
};

/// The other side does not keep to the protocol.
class ProtocolError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Throws ProtocolError for a payload longer than the other side takes.
[[nodiscard]] std::string encode(const Frame& frame);

[[nodiscard]] Frame makeHello(std::uint32_t version = protocol_version);
[[nodiscard]] Frame makeJob(const Job& job);
[[nodiscard]] Frame makeAnswer(const Solution& solution);

/// Throws ProtocolError unless the frame is a Hello of this version.
void requireHello(const Frame& frame);
[[nodiscard]] Job readJob(const Frame& frame);
[[nodiscard]] Solution readAnswer(const Frame& frame);

/// Bytes in, frames out.
class FrameReader {
public:
    void feed(std::string_view bytes) { m_bytes.append(bytes); }
    /// The next whole frame; throws ProtocolError for an unknown kind or too long a payload.
    [[nodiscard]] std::optional<Frame> next();
    /// Whether part of a frame is waiting for its rest.
    [[nodiscard]] bool isHalf() const { return !m_bytes.empty(); }

private:
    std::string m_bytes;
};

} // namespace ebbline::engine
