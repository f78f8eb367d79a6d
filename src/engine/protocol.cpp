// SPDX-License-Identifier: MIT
// Frames and payloads as bytes.
#include "protocol.h"

#include <algorithm>
#include <cstring>
#include <type_traits>
#include <utility>

namespace ebbline::engine {
namespace {

constexpr std::size_t header_size = sizeof(std::uint32_t) + 1;

class Writer {
public:
    template <class Plain>
    void put(const Plain& value) {
        static_assert(std::is_trivially_copyable_v<Plain>);
        m_bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
    }
    void putText(std::string_view text) {
        put(std::uint64_t{text.size()});
        m_bytes.append(text);
    }
    template <class Plain>
    void putVector(const std::vector<Plain>& values) {
        put(std::uint64_t{values.size()});
        m_bytes.append(reinterpret_cast<const char*>(values.data()), values.size() * sizeof(Plain));
    }
    [[nodiscard]] std::string take() { return std::move(m_bytes); }

private:
    std::string m_bytes;
};

class Reader {
public:
    explicit Reader(std::string_view bytes) : m_rest(bytes) {}

    template <class Plain>
    [[nodiscard]] Plain get() {
        static_assert(std::is_trivially_copyable_v<Plain>);
        Plain value{};
        const std::string_view bytes = take(sizeof value);
        std::memcpy(&value, bytes.data(), bytes.size());
        return value;
    }
    [[nodiscard]] std::string getText() { return std::string(take(get<std::uint64_t>())); }
    template <class Plain>
    [[nodiscard]] std::vector<Plain> getVector() {
        const auto count = get<std::uint64_t>();
        if (count > m_rest.size() / sizeof(Plain))
            throw ProtocolError("a payload ends before its contents");
        std::vector<Plain> values(count);
        const std::string_view bytes = take(count * sizeof(Plain));
        if (count > 0)
            std::memcpy(values.data(), bytes.data(), bytes.size());
        return values;
    }
    [[nodiscard]] std::uint64_t getCount() {
        const auto count = get<std::uint64_t>();
        if (count > m_rest.size())
            throw ProtocolError("a payload ends before its contents");
        return count;
    }
    void requireEnd() const {
        if (!m_rest.empty())
            throw ProtocolError("a payload goes on after its contents");
    }

private:
    std::string_view take(std::uint64_t size) {
        if (size > m_rest.size())
            throw ProtocolError("a payload ends before its contents");
        const std::string_view taken = m_rest.substr(0, size);
        m_rest.remove_prefix(size);
        return taken;
    }
    std::string_view m_rest;
};

void require(const Frame& frame, FrameKind kind) {
    if (frame.kind != kind)
        throw ProtocolError("a frame of another kind than expected");
}

} // namespace

std::string encode(const Frame& frame) {
    if (frame.payload.size() > longest_payload)
        throw ProtocolError("a frame of " + std::to_string(frame.payload.size()) +
                            " bytes, expected at most " + std::to_string(longest_payload));
    Writer writer;
    writer.put(static_cast<std::uint32_t>(frame.payload.size()));
    writer.put(static_cast<std::uint8_t>(frame.kind));
    return writer.take() + frame.payload;
}

Frame makeHello(std::uint32_t version) {
    Writer writer;
    writer.put(version);
    return {FrameKind::Hello, writer.take()};
}

Frame makeJob(const Job& job) {
    Writer writer;
    writer.putText(job.circuit);
    writer.put(std::uint64_t{job.vectors.size()});
    for (const std::string& vector : job.vectors)
        writer.putText(vector);
    writer.putVector(job.potentials);
    writer.put(job.stop_s);
    writer.put(job.highest_v);
    writer.put(job.usual_points);
    writer.put(std::uint64_t{job.causes.size()});
    for (const Cause& cause : job.causes) {
        writer.put(std::int32_t{cause.state});
        writer.put(std::uint8_t{cause.rises});
        writer.put(std::int32_t{cause.by});
        writer.put(std::uint8_t{cause.above});
        writer.put(cause.level);
    }
    return {FrameKind::Job, writer.take()};
}

Frame makeAnswer(const Solution& solution) {
    Writer writer;
    if (const auto* solved = std::get_if<Solved>(&solution)) {
        writer.putVector(solved->time_s);
        writer.put(std::uint64_t{solved->vectors.size()});
        for (const auto& vector : solved->vectors)
            writer.putVector(vector);
        return {FrameKind::Solved, writer.take()};
    }
    const auto& failed = std::get<NotSolved>(solution);
    writer.putText(failed.reason);
    writer.putText(failed.log);
    return {FrameKind::NotSolved, writer.take()};
}

void requireHello(const Frame& frame) {
    require(frame, FrameKind::Hello);
    Reader reader(frame.payload);
    const auto version = reader.get<std::uint32_t>();
    reader.requireEnd();
    if (version != protocol_version)
        throw ProtocolError("the worker speaks version " + std::to_string(version) +
                            " of the protocol, expected " + std::to_string(protocol_version));
}

Job readJob(const Frame& frame) {
    require(frame, FrameKind::Job);
    Reader reader(frame.payload);
    Job job{.circuit = reader.getText()};
    job.vectors.resize(reader.getCount());
    for (std::string& vector : job.vectors)
        vector = reader.getText();
    job.potentials = reader.getVector<int>();
    job.stop_s = reader.get<double>();
    job.highest_v = reader.get<double>();
    job.usual_points = reader.get<std::uint64_t>();
    job.causes.resize(reader.getCount());
    for (Cause& cause : job.causes) {
        cause.state = reader.get<std::int32_t>();
        cause.rises = reader.get<std::uint8_t>() != 0;
        cause.by = reader.get<std::int32_t>();
        cause.above = reader.get<std::uint8_t>() != 0;
        cause.level = reader.get<double>();
    }
    reader.requireEnd();
    const auto is_vector = [&](int index) {
        return index >= 0 && static_cast<std::size_t>(index) < job.vectors.size();
    };
    if (!std::ranges::all_of(job.potentials, is_vector))
        throw ProtocolError("a potential that is none of the vectors");
    for (const Cause& cause : job.causes)
        if (!is_vector(cause.state) || !is_vector(cause.by))
            throw ProtocolError("a cause that is none of the vectors");
    return job;
}

Solution readAnswer(const Frame& frame) {
    Reader reader(frame.payload);
    if (frame.kind == FrameKind::NotSolved) {
        NotSolved failed{.reason = reader.getText()};
        failed.log = reader.getText();
        reader.requireEnd();
        return failed;
    }
    require(frame, FrameKind::Solved);
    Solved solved{.time_s = reader.getVector<double>()};
    solved.vectors.resize(reader.getCount());
    for (auto& vector : solved.vectors) {
        vector = reader.getVector<double>();
        if (vector.size() != solved.time_s.size())
            throw ProtocolError("a vector has another length than time");
    }
    reader.requireEnd();
    return solved;
}

std::optional<Frame> FrameReader::next() {
    if (m_bytes.size() < header_size)
        return std::nullopt;
    Reader header(m_bytes);
    const auto length = header.get<std::uint32_t>();
    const auto kind = header.get<std::uint8_t>();
    if (kind < static_cast<std::uint8_t>(FrameKind::Hello) ||
        kind > static_cast<std::uint8_t>(FrameKind::NotSolved))
        throw ProtocolError("a frame of unknown kind " + std::to_string(kind));
    if (length > longest_payload)
        throw ProtocolError("a frame announces " + std::to_string(length) + " bytes");
    if (m_bytes.size() < header_size + length)
        return std::nullopt;
    Frame frame{static_cast<FrameKind>(kind), m_bytes.substr(header_size, length)};
    m_bytes.erase(0, header_size + length);
    return frame;
}

} // namespace ebbline::engine
