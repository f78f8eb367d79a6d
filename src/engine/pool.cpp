// SPDX-License-Identifier: MIT
// Several workers, one poll loop: jobs out, solutions in, in job order.
#include "protocol.h"
#include "subprocess.h"

#include "ebbline/engine.h"
#include "ebbline/error.h"

#include <poll.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <deque>
#include <memory>
#include <optional>
#include <string_view>
#include <system_error>
#include <utility>

namespace ebbline::engine {
namespace {

using Clock = std::chrono::steady_clock;

/// One worker and the job it has.
class Lane {
public:
    explicit Lane(const PoolSettings& settings) : m_settings(settings) {}

    [[nodiscard]] bool isBusy() const { return m_job.has_value(); }
    [[nodiscard]] std::size_t job() const {
        EBBLINE_ASSERT(m_job.has_value(), "only a busy lane has a job");
        return *m_job;
    }
    [[nodiscard]] Clock::time_point deadline() const { return m_deadline; }
    [[nodiscard]] pollfd pollEntry() const {
        const bool has_more = !m_unsent.empty();
        return {m_process->socket(), static_cast<short>(has_more ? POLLIN | POLLOUT : POLLIN), 0};
    }

    void give(std::size_t index, const Job& job) {
        if (!m_process || m_jobs_done >= m_settings.recycle_after)
            restart();
        m_job = index;
        m_unsent = encode(makeJob(job));
        m_deadline = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                        std::chrono::duration<double>(m_settings.deadline_s));
    }

    /// Sends and receives what is possible now; the solution when the job is decided.
    [[nodiscard]] std::optional<Solution> advance(short events) {
        try {
            if ((events & POLLOUT) != 0)
                sendSome();
            if ((events & (POLLIN | POLLHUP | POLLERR)) != 0 && !receiveSome())
                return end(lost());
            return answer();
        } catch (const ProtocolError& error) {
            static_cast<void>(m_process->reap(true));
            return end(Rejected{error.what()});
        }
    }

    [[nodiscard]] Solution timeOut() {
        static_cast<void>(m_process->reap(true));
        return end(TimedOut{m_settings.deadline_s});
    }

private:
    void restart() {
        m_process = std::make_unique<Subprocess>(m_settings.program);
        m_reader = {};
        m_greeted = false;
        m_jobs_done = 0;
    }

    /// The worker is gone: a frame cut short breaks the protocol, else it crashed.
    [[nodiscard]] Solution lost() {
        const std::string how = m_process->reap(false);
        if (m_reader.isHalf())
            return Rejected{"the answer ends within a frame (" + how + ")"};
        return Crashed{how};
    }

    [[nodiscard]] Solution end(Solution solution) {
        m_process.reset();
        m_job.reset();
        m_unsent.clear();
        return solution;
    }

    void sendSome() {
        const ssize_t sent = send(
            m_process->socket(), m_unsent.data(), m_unsent.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
        if (sent > 0)
            m_unsent.erase(0, static_cast<std::size_t>(sent));
        else if (sent < 0 && errno != EAGAIN && errno != EINTR)
            m_unsent.clear(); // the worker is gone; reading tells how
    }

    /// False at the end of the stream.
    [[nodiscard]] bool receiveSome() {
        std::array<char, 65536> buffer{};
        const ssize_t got = recv(m_process->socket(), buffer.data(), buffer.size(), MSG_DONTWAIT);
        if (got > 0)
            m_reader.feed({buffer.data(), static_cast<std::size_t>(got)});
        return got > 0 || (got < 0 && (errno == EAGAIN || errno == EINTR));
    }

    [[nodiscard]] std::optional<Solution> answer() {
        while (const auto frame = m_reader.next()) {
            if (!m_greeted) {
                requireHello(*frame);
                m_greeted = true;
                continue;
            }
            Solution solution = readAnswer(*frame);
            ++m_jobs_done;
            m_job.reset();
            return solution;
        }
        return std::nullopt;
    }

    const PoolSettings& m_settings;
    std::unique_ptr<Subprocess> m_process;
    FrameReader m_reader;
    bool m_greeted = false;
    int m_jobs_done = 0;
    std::optional<std::size_t> m_job;
    std::string m_unsent;
    Clock::time_point m_deadline;
};

class Pool final : public Engine {
public:
    explicit Pool(PoolSettings settings) : m_settings(std::move(settings)) {
        if (m_settings.program.empty())
            m_settings.program = "/proc/self/exe";
        for (int i = 0; i < std::max(1, m_settings.workers); ++i)
            m_lanes.emplace_back(m_settings);
    }

    [[nodiscard]] std::vector<Solution> run(std::span<const Job> jobs) override {
        std::vector<Solution> solutions(jobs.size());
        std::size_t next = 0;
        std::size_t done = 0;
        while (done < jobs.size()) {
            for (Lane& lane : m_lanes)
                if (!lane.isBusy() && next < jobs.size()) {
                    lane.give(next, jobs[next]);
                    ++next;
                }
            done += serve(solutions);
        }
        return solutions;
    }

private:
    /// Waits for news and takes it in; the number of jobs that were decided.
    [[nodiscard]] std::size_t serve(std::vector<Solution>& solutions) {
        std::vector<Lane*> busy;
        std::vector<pollfd> entries;
        for (Lane& lane : m_lanes)
            if (lane.isBusy()) {
                busy.push_back(&lane);
                entries.push_back(lane.pollEntry());
            }
        if (poll(entries.data(), entries.size(), waitMilliseconds(busy)) < 0 && errno != EINTR)
            throw std::system_error(errno, std::generic_category(), "poll");
        std::size_t decided = 0;
        for (std::size_t i = 0; i < busy.size(); ++i)
            decided += settle(*busy[i], entries[i].revents, solutions) ? 1U : 0U;
        return decided;
    }

    [[nodiscard]] static bool settle(Lane& lane, short events, std::vector<Solution>& solutions) {
        const std::size_t job = lane.job();
        if (auto solution = lane.advance(events)) {
            solutions[job] = std::move(*solution);
            return true;
        }
        if (Clock::now() < lane.deadline())
            return false;
        solutions[job] = lane.timeOut();
        return true;
    }

    [[nodiscard]] static int waitMilliseconds(const std::vector<Lane*>& busy) {
        auto first = busy.front()->deadline();
        for (const Lane* lane : busy)
            first = std::min(first, lane->deadline());
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(first - Clock::now());
        return static_cast<int>(std::clamp<long>(left.count(), 0, 60000));
    }

    PoolSettings m_settings;
    std::deque<Lane> m_lanes;
};

} // namespace

std::unique_ptr<Engine> makePool(PoolSettings settings) {
    return std::make_unique<Pool>(std::move(settings));
}

} // namespace ebbline::engine
