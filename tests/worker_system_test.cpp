// SPDX-License-Identifier: MIT
// Workers that end between jobs, change hands or answer out of turn, and the walls around them.
#include "engine/sandbox.h"
#include "engine/spice.h"
#include "runs.h"
#include "scratch.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <thread>

using namespace ebbline;
using Catch::Matchers::Contains;
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

std::unique_ptr<Engine> fakePool() {
    return engine::makePool({.workers = 1, .deadline_s = 1, .program = EBBLINE_FAKE_WORKER});
}

Solution runFake(Engine& pool, const std::string& task) {
    const Job job{.circuit = task + " job", .vectors = {"v(a)"}, .stop_s = 2, .highest_v = 12};
    return pool.run({&job, 1}).front();
}

const Solution fake_answer = Solved{{1.0, 2.0}, {{3.0, 4.0}}};

Job smallJob(const std::string& resistor = "r1 a b 1") {
    return {.circuit = "* charge\nv1 a 0 12\n" + resistor +
                       "\nc1 b 0 1e-5 ic=0\n.save v(b)\n.tran 1e-6 1e-4 0 1e-6 uic\n.end\n",
            .vectors = {"v(b)"},
            .potentials = {0},
            .stop_s = 1e-4,
            .highest_v = 12};
}

/// What a process of its own returns from `task`; 255 when it ends in another way.
template <class Task>
int statusOf(const Task& task) {
    const pid_t child = fork();
    if (child == 0)
        _exit(task());
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 255;
}

/// One bit for each thing this process can do that a worker must not.
int brokenWalls(const std::string& made) {
    const std::string folder = made + ".d";
    const pid_t child = fork();
    if (child == 0)
        _exit(0);
    if (child > 0)
        waitpid(child, nullptr, 0);
    int broken = child >= 0 ? 1 : 0;
    broken |= socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0) >= 0 ? 2 : 0;
    broken |= open("/etc/passwd", O_RDONLY | O_CLOEXEC) >= 0 ? 4 : 0;
    broken |= open(made.c_str(), O_CREAT | O_WRONLY | O_CLOEXEC, 0600) >= 0 ? 8 : 0;
    broken |= mkdir(folder.c_str(), 0700) == 0 ? 16 : 0;
    broken |= kill(getppid(), 0) == 0 ? 32 : 0;
    return broken;
}

/// TMPDIR for the time of its life.
class TemporaryFolder {
public:
    explicit TemporaryFolder(const std::filesystem::path& folder) {
        if (const char* before = std::getenv("TMPDIR"))
            m_before = before;
        setenv("TMPDIR", folder.c_str(), 1);
    }
    ~TemporaryFolder() {
        if (m_before)
            setenv("TMPDIR", m_before->c_str(), 1);
        else
            unsetenv("TMPDIR");
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

private:
    std::optional<std::string> m_before;
};

/// Whether a folder becomes empty within two seconds.
bool becomesEmpty(const std::filesystem::path& folder) {
    for (int i = 0; i < 200; ++i) {
        if (std::filesystem::is_empty(folder))
            return true;
        std::this_thread::sleep_for(10ms);
    }
    return false;
}

Solution runReal(Engine& pool, const Job& job) {
    return pool.run({&job, 1}).front();
}

} // namespace

TEST_CASE("a worker that ends after its answer costs the next job nothing", "[engine]") {
    const auto pool = fakePool();
    CHECK(runFake(*pool, "answer-and-leave") == fake_answer);
    std::this_thread::sleep_for(200ms);
    CHECK(runFake(*pool, "answer") == fake_answer);
}

TEST_CASE("an answer too many is never taken for the next job's", "[engine]") {
    const auto pool = fakePool();
    static_cast<void>(runFake(*pool, "answer-twice"));
    CHECK(runFake(*pool, "answer") == fake_answer);
}

TEST_CASE("an answer with other vectors than asked for is rejected", "[engine]") {
    const auto pool = fakePool();
    const Solution solution = runFake(*pool, "answer-less");
    REQUIRE(std::holds_alternative<Rejected>(solution));
    CHECK_THAT(std::get<Rejected>(solution).reason, Contains("0 vectors, expected 1"));
}

TEST_CASE("a worker that closes its socket and lives on is ended within the deadline", "[engine]") {
    const auto pool = fakePool();
    const auto begin = Clock::now();
    const Solution solution = runFake(*pool, "cut-off");
    CHECK(Clock::now() - begin < 2s);
    CHECK(std::holds_alternative<Rejected>(solution));
}

TEST_CASE("a worker that cannot be started is a value for every job", "[engine]") {
    const auto pool = engine::makePool({.workers = 2, .program = "/nonexistent/worker"});
    const std::vector<Job> jobs(3, smallJob());
    for (const Solution& solution : pool->run(jobs)) {
        REQUIRE(std::holds_alternative<Crashed>(solution));
        CHECK_THAT(std::get<Crashed>(solution).reason, Contains("cannot start"));
    }
}

TEST_CASE("after a circuit that ends the simulator the next job is solved", "[engine]") {
    const auto pool = runs::makePool(1);
    for (const char* resistor : {"r1 a b {nowhere}", "r1 a b 1\nr1 a b 1", "x1 a b nothing"}) {
        INFO(resistor);
        CHECK(std::holds_alternative<NotSolved>(runReal(*pool, smallJob(resistor))));
        CHECK(std::holds_alternative<Solved>(runReal(*pool, smallJob())));
    }
    std::vector<Job> mixed;
    mixed.reserve(20);
    for (int i = 0; i < 20; ++i)
        mixed.push_back(i % 2 == 0 ? smallJob("r1 a b {nowhere}") : smallJob());
    const auto solutions = pool->run(mixed);
    for (std::size_t i = 0; i < mixed.size(); ++i)
        CHECK(solutions[i].index() == (i % 2 == 0 ? 1U : 0U));
}

TEST_CASE("a pool may be used from one thread after another", "[engine]") {
    const auto pool = runs::makePool(1);
    const Job job = smallJob();
    const Solution expected = runReal(*runs::makePool(1), job);
    REQUIRE(std::holds_alternative<Solved>(expected));
    for (int i = 0; i < 20; ++i) // a worker dies with the thread that started it
        std::thread([&] { CHECK(runReal(*pool, job) == expected); }).join();
}

TEST_CASE("a program whose standard streams are closed still has workers", "[engine]") {
    CHECK(statusOf([] {
              for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
                  close(descriptor);
              return runFake(*fakePool(), "answer") == fake_answer ? 0 : 1;
          }) == 0);
}

TEST_CASE("a worker that cannot make its folder says so", "[engine]") {
    const TemporaryFolder nowhere("/nonexistent");
    const auto pool = runs::makePool(1);
    const Solution solution = runReal(*pool, smallJob());
    REQUIRE(std::holds_alternative<NotSolved>(solution));
    CHECK_THAT(std::get<NotSolved>(solution).reason, Contains("TMPDIR"));
}

TEST_CASE("nothing is left behind by a program that is interrupted as it begins", "[engine]") {
    const Scratch scratch;
    for (int delay_ms = 0; delay_ms < 60; delay_ms += 3) {
        CAPTURE(delay_ms);
        // Before the fork: until it is the program the child must neither ignore the signal, as a
        // test in the background does, nor answer it in the test framework's handler.
        auto* const handler = signal(SIGINT, SIG_DFL);
        const pid_t program = fork();
        if (program == 0) {
            setpgid(0, 0);
            setenv("TMPDIR", scratch.path().c_str(), 1);
            const int nowhere = open("/dev/null", O_WRONLY);
            if (nowhere < 0 || dup2(nowhere, STDOUT_FILENO) < 0 || dup2(nowhere, STDERR_FILENO) < 0)
                _exit(1);
            execl(EBBLINE_PROGRAM, EBBLINE_PROGRAM, "start", nullptr);
            _exit(1);
        }
        signal(SIGINT, handler);
        std::this_thread::sleep_for(std::chrono::milliseconds(delay_ms));
        kill(-program, SIGINT); // as a terminal does: the whole group
        kill(program, SIGINT);  // the group may not be there yet
        waitpid(program, nullptr, 0);
        CHECK(becomesEmpty(scratch.path()));
    }
}

TEST_CASE("nothing is left behind by a worker that is killed as it begins", "[engine]") {
    const Scratch scratch;
    const TemporaryFolder folder(scratch.path());
    // On a busy machine the folder is often gone before anyone saw it.
    constexpr int enough = 10;
    constexpr int most_tries = 2000;
    int crashed = 0;
    for (int i = 0; i < most_tries && crashed < enough; ++i) {
        const auto pool =
            engine::makePool({.workers = 1, .program = EBBLINE_PROGRAM, .attempts = 1});
        // The worker's folder carries its number, so that it can be killed while it has one.
        std::atomic<bool> is_over = false;
        std::thread killer([&] {
            while (!is_over)
                for (const auto& entry : std::filesystem::directory_iterator(scratch.path())) {
                    const std::string name = entry.path().filename().string();
                    kill(std::stoi(name.substr(name.find('-') + 1)), SIGKILL);
                    return;
                }
        });
        const Solution solution = runReal(*pool, smallJob());
        is_over = true;
        killer.join();
        crashed += std::holds_alternative<Crashed>(solution) ? 1 : 0;
        CHECK(becomesEmpty(scratch.path()));
    }
    CHECK(crashed == enough);
}

TEST_CASE("a job run in this process gives the same bytes and leaves it as it was", "[engine]") {
    const Job job = smallJob();
    const Solution expected = runReal(*runs::makePool(1), job);
    REQUIRE(std::holds_alternative<Solved>(expected));
    // In a process of its own, as the simulator starts once per process.
    CHECK(statusOf([&] {
              const auto folder = std::filesystem::current_path();
              const bool is_same =
                  engine::runHere(job) == expected && engine::runHere(job) == expected;
              const bool is_kept = std::filesystem::current_path() == folder &&
                                   std::getenv("SPICE_SCRIPTS") == nullptr;
              const bool is_open = open("/etc/passwd", O_RDONLY | O_CLOEXEC) >= 0;
              return (is_same ? 1 : 0) + (is_kept ? 2 : 0) + (is_open ? 4 : 0);
          }) == 7);
}

TEST_CASE("inside the walls nothing can be started, opened or reached", "[engine]") {
    const Scratch scratch;
    const std::string made = (scratch.path() / "made").string();
    CHECK(statusOf([&] {
              engine::confine();
              return brokenWalls(made);
          }) == 0);
    // Every one of these would succeed outside.
    CHECK(statusOf([&] { return brokenWalls(made); }) == 0b11'1111);
}

TEST_CASE("a circuit text that holds a command is refused and runs nothing", "[engine]") {
    const Scratch scratch;
    const std::string mark = (scratch.path() / "ran").string();
    const auto pool = runs::makePool(1);
    for (const std::string& text :
         {".control\nshell touch " + mark + "\n.endc", "*# shell touch " + mark}) {
        const Solution solution = runReal(*pool, smallJob("r1 a b 1\n" + text));
        REQUIRE(std::holds_alternative<NotSolved>(solution));
        CHECK_THAT(std::get<NotSolved>(solution).reason, Contains("refused"));
        CHECK_FALSE(std::filesystem::exists(mark));
    }
}

TEST_CASE("a simulator that read another start-up file is not used", "[engine]") {
    CHECK(statusOf([] {
              try {
                  engine::startSpice();
                  return 0;
              } catch (const std::runtime_error&) {
                  return 9;
              }
          }) == 9);
}
