// SPDX-License-Identifier: MIT
// What every engine can do on top of its stream.
#include "ebbline/engine.h"

#include <utility>

namespace ebbline {
namespace engine {
namespace {

class Stoppable final : public Engine {
public:
    Stoppable(Engine& engine, std::stop_token stop) : m_engine(engine), m_stop(std::move(stop)) {}

    [[nodiscard]] bool
    stream(const Next& next, const Take& take, const std::stop_token& /*stop*/) override {
        if (!m_engine.stream(next, take, m_stop))
            throw Stopped();
        return true;
    }

private:
    Engine& m_engine;
    std::stop_token m_stop;
};

} // namespace

std::unique_ptr<Engine> makeStoppable(Engine& engine, std::stop_token stop) {
    return std::make_unique<Stoppable>(engine, std::move(stop));
}

} // namespace engine

std::vector<Solution> Engine::run(std::span<const Job> jobs) {
    std::vector<Solution> solutions;
    solutions.reserve(jobs.size());
    std::size_t given = 0;
    static_cast<void>(stream(
        [&]() -> std::optional<Job> {
            if (given == jobs.size())
                return std::nullopt;
            return jobs[given++];
        },
        [&](Solution solution) { solutions.push_back(std::move(solution)); },
        {}));
    return solutions;
}

} // namespace ebbline
