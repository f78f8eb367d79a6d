// SPDX-License-Identifier: MIT
// One worker of a pool and the job it has.
#pragma once

#include "protocol.h"
#include "subprocess.h"

#include "ebbline/engine.h"

#include <poll.h>

#include <chrono>
#include <memory>
#include <optional>
#include <string>

namespace ebbline::engine {

/// Starts its worker when first needed, and a fresh one whenever the last cannot be trusted with
/// another job. Passive: the pool says when to give, read, write and give up.
class Lane {
public:
    using Clock = std::chrono::steady_clock;

    explicit Lane(const PoolSettings& settings) : m_settings(settings) {}

    [[nodiscard]] bool isBusy() const { return m_job != nullptr; }
    [[nodiscard]] std::size_t index() const { return m_index; } ///< of the job it has
    [[nodiscard]] Clock::time_point deadline() const { return m_deadline; }
    [[nodiscard]] pollfd pollEntry() const;

    /// Takes a job, which must outlive its solution; a solution at once when no worker can have it.
    [[nodiscard]] std::optional<Solution> give(std::size_t index, const Job& job);
    /// Sends and receives what is possible now; the solution when the job is decided.
    [[nodiscard]] std::optional<Solution> advance(short events);
    [[nodiscard]] Solution timeOut();
    /// Forgets a job whose solution nobody waits for any more, and its worker.
    void abandon();

private:
    [[nodiscard]] bool isFit() const;
    void restart();
    [[nodiscard]] Solution lost();
    [[nodiscard]] Solution end(Solution solution);
    void sendSome();
    [[nodiscard]] bool receiveSome();
    [[nodiscard]] std::optional<Solution> answer();
    void check(const Solution& solution) const;

    const PoolSettings& m_settings;
    std::unique_ptr<Subprocess> m_process;
    pid_t m_starter = 0; ///< thread that started the worker, which dies with that thread
    FrameReader m_reader;
    bool m_greeted = false;
    int m_jobs_done = 0;
    const Job* m_job = nullptr;
    std::size_t m_index = 0;
    std::string m_unsent;
    Clock::time_point m_deadline;
};

} // namespace ebbline::engine
