// SPDX-License-Identifier: MIT
// Runs circuits in worker processes. The only folder that knows ngspice.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <stdexcept>
#include <stop_token>
#include <string>
#include <vector>

namespace ebbline {

/// Solves circuits. Studies take this interface, so tests can give them another.
class Engine {
public:
    using Next = std::function<std::optional<Job>()>;
    using Take = std::function<void(Solution)>;

    Engine() = default;
    virtual ~Engine() = default;
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;

    /// Solves jobs as `next` gives them and hands their solutions to `take` in the order of the
    /// jobs. Only a few are held at a time, however many there are. `next` may have none for now:
    /// it is asked again after every `take`, and the stream ends when it has none and none is out.
    /// False as soon as `stop` is requested; the jobs that are out are dropped then. Never throws
    /// for what a job or a worker does, that is a value; what `next` and `take` throw goes through.
    [[nodiscard]] virtual bool
    stream(const Next& next, const Take& take, const std::stop_token& stop) = 0;

    /// Runs the jobs and returns their solutions in job order.
    [[nodiscard]] std::vector<Solution> run(std::span<const Job> jobs);
};

namespace engine {

/// A worker was lost with a job, which is tried again unless it has lost too many.
struct Loss {
    std::size_t job = 0; ///< counted from 0 in its stream
    int attempt = 1;     ///< the one that was lost
    std::string reason;  ///< "ended by signal 9"
};

struct PoolSettings {
    int workers = 2;
    double deadline_s = 30;  ///< per try of a job: a circuit may have three, see `engine/accept.h`
    int recycle_after = 500; ///< jobs a worker does before a fresh one takes its place
    std::filesystem::path program; ///< the executable that knows `worker_argument`; empty: this one
    int attempts = 3;              ///< workers a job may lose before it counts as crashed
    std::function<void(const Loss&)> on_loss; ///< told each loss; may be empty
};

/// The hidden argument with which this program becomes a worker; alone on the command line with
/// the number of the connected socket.
inline constexpr const char* worker_argument = "--worker-fd";

/// Workers are child processes of this one, started when first needed, gone when the pool goes.
[[nodiscard]] std::unique_ptr<Engine> makePool(PoolSettings settings);

/// An engine that remembers what was solved, by the content of the job, in up to `bytes` of
/// vectors; what was used longest ago is forgotten first.
[[nodiscard]] std::unique_ptr<Engine> makeCache(std::unique_ptr<Engine> engine, std::size_t bytes);

/// Its run was stopped from elsewhere.
class Stopped : public std::runtime_error {
public:
    Stopped() : std::runtime_error("stopped") {}
};

/// The same engine, which outlives it, for work that may be stopped from another thread: a run then
/// throws Stopped.
[[nodiscard]] std::unique_ptr<Engine> makeStoppable(Engine& engine, std::stop_token stop);

/// The whole life of a worker: greets, solves what comes through the socket, returns the exit
/// status when the socket closes.
int runWorker(int socket);

/// Why a job was not solved, in the reader's language. A reason is English where it is made: it is
/// data there, and comes over a socket.
[[nodiscard]] std::string reasonInWords(const std::string& reason);

/// Runs one job in this process without any isolation; for debugging and for tests.
[[nodiscard]] Solution runHere(const Job& job);

} // namespace engine
} // namespace ebbline
