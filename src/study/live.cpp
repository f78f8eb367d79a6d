// SPDX-License-Identifier: MIT
// The newest edit wins: a mailbox of one, a thread, a draft, a final run, and what would help.
#include "ebbline/live.h"

#include "budget.h"

#include "ebbline/error.h"
#include "ebbline/words.h"

#include <condition_variable>
#include <mutex>
#include <stop_token>
#include <thread>
#include <utility>

namespace ebbline::study {
namespace {

/// Solutions of some hundred drafts.
constexpr std::size_t remembered_bytes = 256U << 20U;

struct Edit {
    std::uint64_t number = 0;
    Installation installation;
};

} // namespace

class Live::Lane {
public:
    Lane(const Models& models, engine::PoolSettings settings)
        : m_models(models), m_settings(std::move(settings)),
          m_thread([this](const std::stop_token& end) { work(end); }) {}

    ~Lane() {
        m_thread.request_stop();
        const std::scoped_lock lock(m_mutex);
        m_stop_final.request_stop();
        m_stop_all.request_stop();
    } // the thread joins itself

    Lane(const Lane&) = delete;
    Lane& operator=(const Lane&) = delete;

    void ask(Edit edit) {
        {
            const std::scoped_lock lock(m_mutex);
            m_wanted = std::move(edit);
            m_stop_final.request_stop();
        }
        m_news.notify_one();
    }

    [[nodiscard]] std::optional<LiveAnswer> take() {
        const std::scoped_lock lock(m_mutex);
        return std::exchange(m_answer, std::nullopt);
    }

    [[nodiscard]] bool isBusy() {
        const std::scoped_lock lock(m_mutex);
        return m_is_running || m_wanted || m_answer;
    }

private:
    // The pool belongs to this thread: a worker dies with the thread that started it.
    void work(const std::stop_token& end) {
        const auto pool = engine::makeCache(engine::makePool(m_settings), remembered_bytes);
        // What may take its time leaves a core to whoever draws.
        engine::PoolSettings one_worker = m_settings;
        one_worker.workers = 1;
        const auto aside = engine::makeCache(engine::makePool(one_worker), remembered_bytes / 4);
        while (const auto edit = waitForEdit(end)) {
            const Installation& installation = edit->installation;
            const auto draft_engine = engine::makeStoppable(*pool, m_stop_all.get_token());
            const auto draft = answer(edit->number, true, [&] {
                return LiveAnswer{.found = runDraft(*draft_engine, installation, m_models)};
            });
            const Outcome expected = draft ? draft->start.outcome : Outcome::Starts;
            const std::stop_token stop = stopOfFinal();
            const auto final_engine = engine::makeStoppable(*pool, stop);
            const auto examination = answer(edit->number, false, [&] {
                return LiveAnswer{.found =
                                      runFinal(*final_engine, installation, m_models, expected)};
            });
            if (!examination)
                continue;
            const auto helper = engine::makeStoppable(*aside, stop);
            answer(edit->number, false, [&] { return askOn(*helper, installation, *examination); });
        }
    }

    [[nodiscard]] LiveAnswer
    askOn(Engine& engine, const Installation& installation, Examination examination) const {
        try {
            const Progress silent = [](const std::string&) {};
            addLoopLimit(engine, m_models, examination, silent);
            auto remedies = findRemedies(engine, installation, m_models, examination, silent);
            return {
                .found = std::move(examination), .remedies = std::move(remedies), .is_whole = true};
        } catch (const EngineError& error) {
            throw EngineError(words("more could not be found out: {}", error.what()));
        }
    }

    [[nodiscard]] std::optional<Edit> waitForEdit(const std::stop_token& end) {
        std::unique_lock lock(m_mutex);
        m_is_running = false;
        m_news.wait(lock, end, [&] { return m_wanted.has_value(); });
        if (end.stop_requested())
            return std::nullopt;
        m_is_running = true;
        return std::exchange(m_wanted, std::nullopt);
    }

    /// Stops at once where a newer edit has come while the draft ran.
    [[nodiscard]] std::stop_token stopOfFinal() {
        const std::scoped_lock lock(m_mutex);
        m_stop_final = std::stop_source();
        if (m_wanted || m_stop_all.stop_requested())
            m_stop_final.request_stop();
        return m_stop_final.get_token();
    }

    /// What was seen; what was stopped leaves no answer.
    template <class Run>
    std::optional<Examination> answer(std::uint64_t edit, bool is_busy_after, const Run& run) {
        LiveAnswer answer;
        std::optional<Examination> seen;
        try {
            answer = run();
            seen = std::get<Examination>(answer.found);
        } catch (const engine::Stopped&) {
            return std::nullopt;
        } catch (const std::exception& error) {
            answer.found = std::string(error.what());
        }
        answer.edit = edit;
        const std::scoped_lock lock(m_mutex);
        m_answer = std::move(answer);
        m_is_running = is_busy_after;
        return seen;
    }

    const Models& m_models;
    engine::PoolSettings m_settings;
    std::mutex m_mutex;
    std::condition_variable_any m_news;
    std::optional<Edit> m_wanted;
    std::optional<LiveAnswer> m_answer;
    bool m_is_running = false;
    std::stop_source m_stop_final;
    std::stop_source m_stop_all;
    std::jthread m_thread; ///< last: the others are there while it runs
};

Live::Live(const Models& models, engine::PoolSettings settings)
    : m_lane(std::make_unique<Lane>(models, std::move(settings))) {}

Live::~Live() = default;

void Live::ask(std::uint64_t edit, Installation installation) {
    m_lane->ask({edit, std::move(installation)});
}

std::optional<LiveAnswer> Live::take() {
    return m_lane->take();
}

bool Live::isBusy() const {
    return m_lane->isBusy();
}

} // namespace ebbline::study
