// SPDX-License-Identifier: MIT
// Many jobs through a pool: order, losses, back-pressure, stopping, and what is remembered.
#include "runs.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <random>
#include <thread>

using namespace ebbline;

namespace {

/// A capacitor that is charged to `volts`: some milliseconds of work.
Job charge(double volts) {
    return {.circuit = "* charge\nv1 a 0 " + text::number(volts) +
                       "\nr1 a b 1\nc1 b 0 1e-5 ic=0\n.save v(b)\n.tran 1e-6 1e-4 0 1e-6 uic\n"
                       ".end\n",
            .vectors = {"v(b)"},
            .potentials = {0},
            .stop_s = 1e-4,
            .highest_v = volts};
}

std::vector<Job> charges(int many) {
    std::vector<Job> jobs;
    jobs.reserve(static_cast<std::size_t>(many));
    for (int i = 0; i < many; ++i)
        jobs.push_back(charge(1 + 0.001 * i));
    return jobs;
}

/// Solves nothing itself: answers each job with its highest voltage, and counts.
class Counting final : public Engine {
public:
    explicit Counting(int& count) : m_count(count) {}
    [[nodiscard]] bool
    stream(const Next& next, const Take& take, const std::stop_token& /*stop*/) override {
        while (const auto job = next()) {
            ++m_count;
            take(Solved{{job->highest_v}, {{2 * job->highest_v}}});
        }
        return true;
    }

private:
    int& m_count;
};

} // namespace

TEST_CASE("one worker, two and five give the same bytes in the same order", "[pool]") {
    const std::vector<Job> jobs = charges(200);
    const auto expected = runs::makePool(1)->run(jobs);
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        const auto* solved = std::get_if<Solved>(&expected[i]);
        REQUIRE(solved != nullptr);
        CHECK(solved->vectors[0].back() == Approx(jobs[i].highest_v).epsilon(1e-4));
    }
    CHECK(runs::makePool(2)->run(jobs) == expected);
    CHECK(runs::makePool(5)->run(jobs) == expected);
}

TEST_CASE("workers killed at random change no byte, and every loss is told", "[pool]") {
    const int many = runs::isSanitised() ? 200 : 2000;
    const int kills = many / 10;
    const std::vector<Job> jobs = charges(many);
    const auto expected = runs::makePool(2)->run(jobs);

    std::vector<engine::Loss> losses;
    const auto pool =
        engine::makePool({.workers = 2,
                          .program = EBBLINE_PROGRAM,
                          .attempts = 20,
                          .on_loss = [&](const engine::Loss& loss) { losses.push_back(loss); }});
    std::atomic<int> taken = 0;
    std::thread killer([&] {
        std::mt19937_64 random(1);
        for (int i = 0; i < kills; ++i) {
            while (taken < i * many / kills)
                std::this_thread::yield();
            for (;;) {
                std::this_thread::sleep_for(std::chrono::microseconds(random() % 1000));
                const std::vector<int> workers = runs::childrenOf(getpid());
                if (workers.empty() && taken < many)
                    continue;
                if (!workers.empty())
                    kill(workers[random() % workers.size()], SIGKILL);
                break;
            }
        }
    });
    std::vector<Solution> solutions;
    std::size_t given = 0;
    const bool is_whole = pool->stream(
        [&]() -> std::optional<Job> {
            return given < jobs.size() ? std::optional(jobs[given++]) : std::nullopt;
        },
        [&](Solution solution) {
            solutions.push_back(std::move(solution));
            ++taken;
        },
        {});
    killer.join();
    CHECK(is_whole);
    CHECK(solutions == expected);
    WARN(kills << " workers killed over " << many << " jobs, " << losses.size() << " jobs lost");
    CHECK(losses.size() > static_cast<std::size_t>(kills) / 10);
    CHECK(losses.size() <= static_cast<std::size_t>(kills));
    for (const engine::Loss& loss : losses) {
        CHECK(loss.reason == "ended by signal 9");
        CHECK(loss.job < jobs.size());
        CHECK(loss.attempt >= 1);
    }
}

TEST_CASE("a job that loses every worker is a value, each loss told", "[pool]") {
    std::vector<int> attempts;
    const auto pool = engine::makePool(
        {.workers = 1,
         .program = EBBLINE_FAKE_WORKER,
         .attempts = 3,
         .on_loss = [&](const engine::Loss& loss) { attempts.push_back(loss.attempt); }});
    const Job job{.circuit = "die job", .vectors = {"v(a)"}, .stop_s = 2, .highest_v = 12};
    CHECK(std::holds_alternative<Crashed>(pool->run({&job, 1}).front()));
    CHECK(attempts == std::vector{1, 2, 3});
}

TEST_CASE("a circuit that comes to no end is tried with other pivots, then given up", "[pool]") {
    const auto pool =
        engine::makePool({.workers = 1, .deadline_s = 0.5, .program = EBBLINE_FAKE_WORKER});
    Job job{.circuit = "dawdle job\n.options pivrel=0.1\n",
            .vectors = {"v(a)"},
            .stop_s = 2,
            .highest_v = 12};
    CHECK(std::holds_alternative<Solved>(pool->run({&job, 1}).front()));
    job.circuit = "hang job\n.options pivrel=0.1\n";
    const auto begin = std::chrono::steady_clock::now();
    CHECK(std::holds_alternative<TimedOut>(pool->run({&job, 1}).front()));
    CHECK(std::chrono::steady_clock::now() - begin >= std::chrono::milliseconds(1500));
}

TEST_CASE("a pool asks for few jobs ahead of what is taken", "[pool]") {
    const auto pool = runs::makePool(2);
    int given = 0;
    int taken = 0;
    int most_ahead = 0;
    const bool is_whole = pool->stream(
        [&]() -> std::optional<Job> {
            if (given == 300)
                return std::nullopt;
            most_ahead = std::max(most_ahead, given - taken);
            return charge(1 + 0.01 * ++given);
        },
        [&](const Solution&) { ++taken; },
        {});
    CHECK(is_whole);
    CHECK(taken == 300);
    CHECK(most_ahead >= 2);
    CHECK(most_ahead <= 16);
}

TEST_CASE("a stream may ask for more by what it took", "[pool]") {
    const auto pool = runs::makePool(2);
    std::vector<double> wanted{2};
    std::vector<double> reached;
    const bool is_whole = pool->stream(
        [&]() -> std::optional<Job> {
            if (wanted.empty())
                return std::nullopt;
            const double volts = wanted.back();
            wanted.pop_back();
            return charge(volts);
        },
        [&](const Solution& solution) {
            reached.push_back(std::get<Solved>(solution).vectors[0].back());
            if (reached.size() < 5)
                wanted.push_back(2 * reached.back());
        },
        {});
    CHECK(is_whole);
    REQUIRE(reached.size() == 5);
    CHECK(reached.back() == Approx(32).epsilon(1e-3));
}

TEST_CASE("a pool stops when asked to from another thread, and works again", "[pool]") {
    const auto pool =
        engine::makePool({.workers = 2, .deadline_s = 100, .program = EBBLINE_FAKE_WORKER});
    const Job hang{.circuit = "hang job", .vectors = {"v(a)"}, .stop_s = 2, .highest_v = 12};
    std::stop_source stop;
    std::thread stopper([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
        stop.request_stop();
    });
    const auto begin = std::chrono::steady_clock::now();
    CHECK_FALSE(pool->stream(
        [&] { return std::optional(hang); }, [](const Solution&) {}, stop.get_token()));
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds(20));
    stopper.join();

    const auto stoppable = engine::makeStoppable(*pool, stop.get_token());
    CHECK_THROWS_AS(stoppable->run({&hang, 1}), engine::Stopped);

    const Job job{.circuit = "answer job", .vectors = {"v(a)"}, .stop_s = 2, .highest_v = 12};
    CHECK(std::holds_alternative<Solved>(pool->run({&job, 1}).front()));
}

TEST_CASE("what was solved is remembered by its content, the oldest forgotten first", "[pool]") {
    int count = 0;
    constexpr std::size_t bytes_of_one = 2 * sizeof(double);
    const auto cache = engine::makeCache(std::make_unique<Counting>(count), 3 * bytes_of_one);
    const auto ask = [&](const std::vector<double>& volts) {
        std::vector<Job> jobs;
        for (const double one : volts)
            jobs.push_back(charge(one));
        std::vector<double> answers;
        for (const Solution& solution : cache->run(jobs))
            answers.push_back(std::get<Solved>(solution).vectors[0][0]);
        return answers;
    };
    CHECK(ask({1, 2, 3}) == std::vector<double>{2, 4, 6});
    CHECK(count == 3);
    CHECK(ask({3, 1, 2, 1}) == std::vector<double>{6, 2, 4, 2});
    CHECK(count == 3);
    CHECK(ask({2, 4, 1}) == std::vector<double>{4, 8, 2}); // 3 was used longest ago
    CHECK(count == 4);
    CHECK(ask({3}) == std::vector<double>{6});
    CHECK(count == 5);
    // The same circuit with another stretch is another job.
    Job longer = charge(4);
    longer.stop_s *= 2;
    static_cast<void>(cache->run({&longer, 1}));
    CHECK(count == 6);
}

TEST_CASE("a cache in front of a pool changes nothing but the work", "[pool]") {
    std::vector<Job> jobs = charges(10);
    const std::vector<Job> once = jobs;
    jobs.insert(jobs.end(), once.begin(), once.end());
    std::ranges::reverse(jobs);
    jobs.push_back(charge(500)); // between what is known
    jobs.insert(jobs.end(), once.begin(), once.end());
    const auto cache = engine::makeCache(runs::makePool(2), 1U << 20U);
    CHECK(cache->run(jobs) == runs::makePool(1)->run(jobs));
    CHECK(cache->run(jobs) == runs::makePool(1)->run(jobs));
}
