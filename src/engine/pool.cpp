// SPDX-License-Identifier: MIT
// Several workers, one poll loop: jobs out, solutions in, in job order.
#include "lane.h"

#include "ebbline/engine.h"

#include <poll.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <deque>
#include <memory>
#include <system_error>
#include <utility>

namespace ebbline::engine {
namespace {

using Clock = Lane::Clock;

class Pool final : public Engine {
public:
    explicit Pool(PoolSettings settings) : m_settings(std::move(settings)) {
        if (m_settings.program.empty())
            m_settings.program = "/proc/self/exe";
        for (int i = 0; i < std::max(1, m_settings.workers); ++i)
            m_lanes.emplace_back(m_settings);
    }

    [[nodiscard]] std::vector<Solution> run(std::span<const Job> jobs) override {
        // A run that was left by an exception may have left its jobs behind.
        for (Lane& lane : m_lanes)
            if (lane.isBusy())
                lane.abandon();
        std::vector<Solution> solutions(jobs.size());
        std::size_t next = 0;
        std::size_t done = 0;
        while (done < jobs.size()) {
            for (Lane& lane : m_lanes)
                while (!lane.isBusy() && next < jobs.size()) {
                    if (auto refused = lane.give(next, jobs[next])) {
                        solutions[next] = std::move(*refused);
                        ++done;
                    }
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
        if (busy.empty())
            return 0;
        if (poll(entries.data(), entries.size(), waitMilliseconds(busy)) < 0 && errno != EINTR)
            throw std::system_error(errno, std::generic_category(), "poll");
        std::size_t decided = 0;
        for (std::size_t i = 0; i < busy.size(); ++i)
            decided += settle(*busy[i], entries[i].revents, solutions) ? 1U : 0U;
        return decided;
    }

    [[nodiscard]] static bool settle(Lane& lane, short events, std::vector<Solution>& solutions) {
        const std::size_t job = lane.index();
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
