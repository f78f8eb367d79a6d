// SPDX-License-Identifier: MIT
// One worker of a pool and the job it has.
#include "lane.h"

#include "accept.h"

#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>
#include <utility>

namespace ebbline::engine {
namespace {

using namespace std::chrono_literals;

/// How long a worker that closed its socket may take to end.
constexpr auto grace = 500ms;
constexpr double longest_deadline_s = 1e8; // a clock still holds it

} // namespace

pollfd Lane::pollEntry() const {
    const bool has_more = !m_unsent.empty();
    return {m_process->socket(), static_cast<short>(has_more ? POLLIN | POLLOUT : POLLIN), 0};
}

std::optional<Solution> Lane::give(std::size_t index, const Job& job) {
    m_index = index;
    try {
        std::string bytes = encode(makeJob(job));
        if (!isFit())
            restart();
        m_unsent = std::move(bytes);
    } catch (const std::system_error& error) {
        return end(Crashed{error.what()});
    } catch (const ProtocolError& error) {
        return end(Rejected{error.what()});
    }
    m_job = &job;
    const double seconds = std::clamp(m_settings.deadline_s, 0.0, longest_deadline_s);
    m_deadline = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                    std::chrono::duration<double>(seconds));
    return std::nullopt;
}

std::optional<Solution> Lane::advance(short events) {
    try {
        if ((events & POLLOUT) != 0)
            sendSome();
        if ((events & (POLLIN | POLLHUP | POLLERR)) != 0 && !receiveSome())
            return end(lost());
        return answer();
    } catch (const ProtocolError& error) {
        return end(Rejected{error.what()});
    }
}

Solution Lane::timeOut() {
    return end(TimedOut{m_settings.deadline_s});
}

void Lane::abandon() {
    m_process.reset();
    m_job = nullptr;
    m_unsent.clear();
}

/// Whether the worker can have one more job. An idle one has nothing to say: news from it is its
/// end, or an answer that nobody asked for.
bool Lane::isFit() const {
    if (!m_process || m_jobs_done >= m_settings.recycle_after || m_starter != gettid())
        return false;
    pollfd entry{m_process->socket(), POLLIN, 0};
    return poll(&entry, 1, 0) == 0;
}

void Lane::restart() {
    m_process.reset();
    m_process = std::make_unique<Subprocess>(m_settings.program);
    m_starter = gettid();
    m_reader = {};
    m_greeted = false;
    m_jobs_done = 0;
}

/// The socket is closed: a worker that lives on breaks the protocol, and so does one that ends of
/// its own accord within a frame; else it crashed.
Solution Lane::lost() {
    const auto how = m_process->reap(grace);
    if (!how)
        return Rejected{"the worker closed its socket and did not end"};
    if (m_reader.isHalf() && how->starts_with("exit"))
        return Rejected{"the answer ends within a frame (" + *how + ")"};
    return Crashed{*how};
}

Solution Lane::end(Solution solution) {
    abandon();
    return solution;
}

void Lane::sendSome() {
    const ssize_t sent =
        send(m_process->socket(), m_unsent.data(), m_unsent.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (sent > 0)
        m_unsent.erase(0, static_cast<std::size_t>(sent));
    else if (sent < 0 && errno != EAGAIN && errno != EINTR)
        m_unsent.clear(); // the worker is gone; reading tells how
}

/// False at the end of the stream.
bool Lane::receiveSome() {
    std::array<char, 65536> buffer{};
    const ssize_t got = recv(m_process->socket(), buffer.data(), buffer.size(), MSG_DONTWAIT);
    if (got > 0)
        m_reader.feed({buffer.data(), static_cast<std::size_t>(got)});
    return got > 0 || (got < 0 && (errno == EAGAIN || errno == EINTR));
}

std::optional<Solution> Lane::answer() {
    while (const auto frame = m_reader.next()) {
        if (!m_greeted) {
            requireHello(*frame);
            m_greeted = true;
            continue;
        }
        Solution solution = readAnswer(*frame);
        check(solution);
        // What a failed run left behind is unknown, and the library may have asked to end.
        if (!std::holds_alternative<Solved>(solution))
            return end(std::move(solution));
        ++m_jobs_done;
        m_job = nullptr;
        return solution;
    }
    return std::nullopt;
}

/// A worker is not taken at its word: the pool judges the vectors once more.
void Lane::check(const Solution& solution) const {
    if (!m_unsent.empty() || m_reader.isHalf())
        throw ProtocolError("an answer out of turn");
    if (const auto* solved = std::get_if<Solved>(&solution))
        if (const std::string reason = whyNotSolved(*m_job, *solved); !reason.empty())
            throw ProtocolError("called solved, but " + reason);
}

} // namespace ebbline::engine
