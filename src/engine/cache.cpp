// SPDX-License-Identifier: MIT
// Solutions by the content of their jobs.
#include "in_order.h"
#include "protocol.h"

#include "ebbline/engine.h"
#include "ebbline/text.h"

#include <deque>
#include <list>
#include <map>
#include <utility>

namespace ebbline::engine {
namespace {

/// Hash of everything a worker is told.
using Content = std::string;

Content contentOf(const Job& job) {
    return text::contentHash(makeJob(job).payload);
}

std::size_t bytesOf(const Solved& solved) {
    return (solved.vectors.size() + 1) * solved.time_s.size() * sizeof(double);
}

/// What was solved, the latest used first.
class Memory {
public:
    explicit Memory(std::size_t most_bytes) : m_most_bytes(most_bytes) {}

    [[nodiscard]] const Solved* find(const Content& content) {
        const auto found = m_places.find(content);
        if (found == m_places.end())
            return nullptr;
        m_entries.splice(m_entries.begin(), m_entries, found->second);
        return &found->second->second;
    }

    void keep(const Content& content, const Solved& solved) {
        if (bytesOf(solved) > m_most_bytes || m_places.contains(content))
            return;
        m_bytes += bytesOf(solved);
        m_entries.emplace_front(content, solved);
        m_places[content] = m_entries.begin();
        while (m_bytes > m_most_bytes) {
            m_bytes -= bytesOf(m_entries.back().second);
            m_places.erase(m_entries.back().first);
            m_entries.pop_back();
        }
    }

private:
    using Entries = std::list<std::pair<Content, Solved>>;
    std::size_t m_most_bytes;
    std::size_t m_bytes = 0;
    Entries m_entries;
    std::map<Content, Entries::iterator> m_places;
};

class Cache final : public Engine {
public:
    Cache(std::unique_ptr<Engine> engine, std::size_t bytes)
        : m_engine(std::move(engine)), m_memory(bytes) {}

    [[nodiscard]] bool
    stream(const Next& next, const Take& take, const std::stop_token& stop) override {
        m_waiting.clear();
        return m_engine->stream([&] { return nextUnknown(next, take); },
                                [&](Solution solution) { settle(std::move(solution), take); },
                                stop);
    }

private:
    /// A job from when it is asked for until its solution is taken.
    struct Waiting {
        Content content;
        std::optional<Solution> solution;
    };

    /// The next job that must be run. What is remembered is handed out in its turn.
    [[nodiscard]] std::optional<Job> nextUnknown(const Next& next, const Take& take) {
        while (auto job = next()) {
            const Content content = contentOf(*job);
            const Solved* known = m_memory.find(content);
            m_waiting.push_back({content, std::nullopt});
            if (known == nullptr)
                return job;
            m_waiting.back().solution = *known;
            handOut(m_waiting, take);
        }
        return std::nullopt;
    }

    /// Solutions come in the order of the jobs that were let through.
    void settle(Solution solution, const Take& take) {
        for (Waiting& waiting : m_waiting)
            if (!waiting.solution) {
                if (const auto* solved = std::get_if<Solved>(&solution))
                    m_memory.keep(waiting.content, *solved);
                waiting.solution = std::move(solution);
                break;
            }
        handOut(m_waiting, take);
    }

    std::unique_ptr<Engine> m_engine;
    Memory m_memory;
    std::deque<Waiting> m_waiting;
};

} // namespace

std::unique_ptr<Engine> makeCache(std::unique_ptr<Engine> engine, std::size_t bytes) {
    return std::make_unique<Cache>(std::move(engine), bytes);
}

} // namespace ebbline::engine
