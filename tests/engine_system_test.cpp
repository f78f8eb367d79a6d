// SPDX-License-Identifier: MIT
// Real workers, and workers that misbehave.
#include "drawn.h"
#include "raw_file.h"
#include "runs.h"
#include "scratch.h"

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

using namespace ebbline;
using Catch::Matchers::Contains;
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

Job fakeJob(const std::string& task) {
    return {.circuit = task + " job", .vectors = {"v(a)"}, .stop_s = 2, .highest_v = 12};
}

std::unique_ptr<Engine> fakePool(double deadline_s = 1) {
    return engine::makePool(
        {.workers = 1, .deadline_s = deadline_s, .program = EBBLINE_FAKE_WORKER});
}

Solution runFake(const std::string& task) {
    const auto pool = fakePool();
    const Job job = fakeJob(task);
    const auto begin = Clock::now();
    Solution solution = pool->run({&job, 1}).front();
    CHECK(Clock::now() - begin < 2s); // the deadline plus 1 s
    // The next job finds a working worker.
    const Job next = fakeJob("answer");
    CHECK(std::holds_alternative<Solved>(pool->run({&next, 1}).front()));
    return solution;
}

/// A series R-L-C step with a latch beside it; `ohm` varies the job.
Job circuitJob(double ohm, double stop_s = 1e-3) {
    const std::string text =
        "* step\n.options method=trap reltol=1e-5 chgtol=1e-4\nv1 a 0 12\nr1 a b " +
        std::to_string(ohm) + "\nl1 b c 1e-5 ic=0\nc1 c 0 1e-5 ic=0\n" +
        "aup dup up\nalow dlow low\na1 [c] [dc] above\n"
        "a2 dc dlow dup dlow dlow dq dn latch\na3 [dq] [q] out\n"
        ".model above adc_bridge(in_low=6 in_high=6)\n.model up d_pullup\n"
        ".model low d_pulldown\n.model latch d_srlatch(ic=0)\n"
        ".model out dac_bridge(out_low=0 out_high=1 t_rise=1e-6 t_fall=1e-6)\n"
        ".save v(c) v(q) l1#branch\n.tran 1e-5 " +
        std::to_string(stop_s) + " 0 1e-5 uic\n.end\n";
    return {.circuit = text,
            .vectors = {"v(c)", "v(q)", "l1#branch"},
            .potentials = {0},
            .stop_s = stop_s,
            .highest_v = 12};
}

} // namespace

TEST_CASE("every way a worker can fail is its own value, within the deadline", "[engine]") {
    CHECK(std::get<Crashed>(runFake("die")).reason == "ended by signal 9");
    CHECK(std::get<Crashed>(runFake("leave")).reason == "exit status 7");
    CHECK(std::get<TimedOut>(runFake("freeze")).deadline_s == 1);
    CHECK(std::get<TimedOut>(runFake("hang")).deadline_s == 1);
    CHECK_THAT(std::get<Rejected>(runFake("truncate")).reason, Contains("within a frame"));
    CHECK_THAT(std::get<Rejected>(runFake("babble")).reason, Contains("unknown kind"));
    CHECK_THAT(std::get<Rejected>(runFake("boast")).reason, Contains("1073741824"));
    CHECK(runs::childrenOf(getpid()).empty());
}

TEST_CASE("a worker of another version is refused", "[engine]") {
    setenv("EBBLINE_FAKE_VERSION", "1", 1);
    const Job job = fakeJob("answer");
    const Solution solution = fakePool()->run({&job, 1}).front();
    unsetenv("EBBLINE_FAKE_VERSION");
    CHECK_THAT(std::get<Rejected>(solution).reason, Contains("version"));
    CHECK(runs::childrenOf(getpid()).empty());
}

TEST_CASE("a run that must abort is not taken for solved", "[engine]") {
    const auto pool = runs::makePool(1);
    // A step that no time step can follow: an ideal switch that toggles itself.
    Job abort = circuitJob(1);
    abort.circuit =
        "* abort\n.options reltol=1e-6\nv1 a 0 1\nr1 a b 1\nb1 b 0 I=V(b)>0.5 ? 1e6 : -1e6\n"
        "c1 b 0 1e-12 ic=0\n.save v(b)\n.tran 1e-6 1e-3 0 1e-6 uic\n.end\n";
    abort.vectors = {"v(b)"};
    const auto solution = pool->run({&abort, 1}).front();
    REQUIRE(std::holds_alternative<NotSolved>(solution));
    INFO(std::get<NotSolved>(solution).reason);
    // Nonsense, an unknown subcircuit, nothing at all.
    for (const char* text :
         {"* x\nnot a circuit\n.end\n", "* x\nx1 a b nowhere\n.tran 1 2\n.end\n", ""}) {
        Job nonsense = abort;
        nonsense.circuit = text;
        CHECK(std::holds_alternative<NotSolved>(pool->run({&nonsense, 1}).front()));
    }
    // The worker is none the worse for it.
    const Job good = circuitJob(1);
    CHECK(std::holds_alternative<Solved>(pool->run({&good, 1}).front()));
}

TEST_CASE("a run of more points than usual is halted, and goes to its end where none is shorter",
          "[engine]") {
    const auto pool = runs::makePool(1);
    Job job = circuitJob(1);
    job.circuit.replace(job.circuit.find("method"), 0, "pivrel=0.1 ");
    const auto expected = std::get<Solved>(pool->run({&job, 1}).front());
    REQUIRE(expected.time_s.size() > 20);
    job.usual_points = 20;
    CHECK(std::get<Solved>(pool->run({&job, 1}).front()) == expected);
    job.usual_points = expected.time_s.size() + 1;
    CHECK(std::get<Solved>(pool->run({&job, 1}).front()) == expected);
}

TEST_CASE("a start-up file beside the scene or in the home folder runs nothing", "[engine]") {
    const Scratch scratch;
    const auto mark = scratch.path() / "ran";
    const std::string hostile =
        "shell touch " + mark.string() + "\n.control\nshell touch " + mark.string() + "\n.endc\n";
    std::ofstream(scratch.path() / ".spiceinit") << hostile;
    const std::string scene = std::string(EBBLINE_SOURCE_DIR) + "/scenes/quay-03.toml";
    const std::string command = "cd '" + scratch.path().string() + "' && HOME='" +
                                scratch.path().string() + "' '" + EBBLINE_PROGRAM + "' start '" +
                                scene + "' --expect starts > out.txt";
    CHECK(std::system(command.c_str()) == 0);
    CHECK_FALSE(std::filesystem::exists(mark));
    // The trap itself works: stock ngspice falls into it.
    const std::string stock =
        "cd '" + scratch.path().string() + "' && echo '* t' > t.cir && ngspice -b t.cir > log 2>&1";
    static_cast<void>(std::system(stock.c_str()));
    CHECK(std::filesystem::exists(mark));
}

TEST_CASE("two hundred jobs over two workers give the bytes of fresh processes", "[engine]") {
    std::vector<Job> jobs;
    jobs.reserve(200);
    for (int i = 0; i < 200; ++i)
        jobs.push_back(circuitJob(0.05 + 0.01 * i, i % 3 == 0 ? 2e-3 : 1e-3));
    const auto two = runs::makePool(2)->run(jobs);
    const auto fresh =
        engine::makePool({.workers = 1, .recycle_after = 1, .program = EBBLINE_PROGRAM})->run(jobs);
    REQUIRE(two.size() == jobs.size());
    CHECK(two == fresh);
    CHECK(std::ranges::all_of(
        two, [](const Solution& solution) { return std::holds_alternative<Solved>(solution); }));
    CHECK(runs::makePool(5)->run(jobs) == two);
    // And of stock ngspice, on a few of them.
    for (const std::size_t i : {0U, 99U, 199U}) {
        const RawFile stock = runStock(jobs[i].circuit);
        CHECK(stock.of("time") == std::get<Solved>(two[i]).time_s);
        CHECK(stock.of("v(c)") == std::get<Solved>(two[i]).vectors[0]);
        CHECK(stock.of("v(q)") == std::get<Solved>(two[i]).vectors[1]);
    }
}

TEST_CASE("when the program is killed its workers go with it", "[engine]") {
    for (const int signal : {SIGINT, SIGKILL}) {
        const std::string scene = std::string(EBBLINE_SOURCE_DIR) + "/scenes/quay-02.toml";
        const pid_t program = fork();
        if (program == 0) {
            setpgid(0, 0);
            static_cast<void>(freopen("/dev/null", "w", stdout));
            execl(EBBLINE_PROGRAM, EBBLINE_PROGRAM, "start", scene.c_str(), nullptr);
            _exit(127);
        }
        std::vector<int> workers;
        for (int tries = 0; tries < 500 && workers.empty(); ++tries) {
            std::this_thread::sleep_for(10ms);
            workers = runs::childrenOf(program);
        }
        REQUIRE_FALSE(workers.empty());
        kill(signal == SIGINT ? -program : program, signal);
        int status = 0;
        waitpid(program, &status, 0);
        CHECK(WIFSIGNALED(status));
        CHECK(WTERMSIG(status) == signal);
        const auto is_gone = [](int worker) {
            std::ifstream file("/proc/" + std::to_string(worker) + "/stat");
            std::string text;
            return !std::getline(file, text) || text.find(") Z ") != std::string::npos;
        };
        for (int tries = 0; tries < 300 && !std::ranges::all_of(workers, is_gone); ++tries)
            std::this_thread::sleep_for(10ms);
        CHECK(std::ranges::all_of(workers, is_gone));
    }
}
