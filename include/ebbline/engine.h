// SPDX-License-Identifier: MIT
// Runs circuits in worker processes. The only folder that knows ngspice.
#pragma once

#include "ebbline/netlist.h"
#include "ebbline/start.h"

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace ebbline {

/// Solves circuits. Studies take this interface, so tests can give them another.
class Engine {
public:
    virtual ~Engine() = default;
    /// Runs the jobs and returns their solutions in job order. Never throws for what a job or a
    /// worker does; that is a value.
    [[nodiscard]] virtual std::vector<Solution> run(std::span<const Job> jobs) = 0;
};

namespace engine {

struct PoolSettings {
    int workers = 2;
    double deadline_s = 60;        ///< per job
    int recycle_after = 500;       ///< jobs a worker does before a fresh one takes its place
    std::filesystem::path program; ///< the executable that knows `worker_argument`; empty: this one
};

/// The hidden argument with which this program becomes a worker; alone on the command line with
/// the number of the connected socket.
inline constexpr const char* worker_argument = "--worker-fd";

/// Workers are child processes of this one, started when first needed, gone when the pool goes.
[[nodiscard]] std::unique_ptr<Engine> makePool(PoolSettings settings);

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
