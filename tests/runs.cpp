// SPDX-License-Identifier: MIT
// Runs of the real engine for tests.
#include "runs.h"

#include "ebbline/file.h"

#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

namespace ebbline::runs {

std::unique_ptr<Engine> makePool(int workers) {
    return engine::makePool({.workers = workers, .program = EBBLINE_PROGRAM});
}

namespace {

Netlist netlistOf(const Installation& installation, const RunSettings& settings, bool reduced) {
    const Models& models = file::embeddedModels();
    Network network = network::build(installation, models.catalogues);
    if (reduced)
        network = network::reduce(std::move(network));
    return netlist::build(network, models, settings);
}

} // namespace

void runMany(std::span<const Wanted> wanted, const std::function<void(std::size_t, Run)>& take) {
    constexpr std::size_t at_once = 16; // some megabytes each
    const auto pool = makePool();
    for (std::size_t begin = 0; begin < wanted.size(); begin += at_once) {
        std::vector<Run> batch;
        std::vector<Job> jobs;
        for (const Wanted& one : wanted.subspan(begin, std::min(at_once, wanted.size() - begin))) {
            batch.push_back({.netlist = netlistOf(one.installation, one.settings, one.reduced)});
            if (one.change)
                one.change(batch.back().netlist);
            jobs.push_back(batch.back().netlist.job);
        }
        std::vector<Solution> solutions = pool->run(jobs);
        for (std::size_t i = 0; i < batch.size(); ++i) {
            batch[i].solved = study::requireSolved(std::move(solutions[i]));
            batch[i].start = start::read(batch[i].solved, batch[i].netlist);
            take(begin + i, std::move(batch[i]));
        }
    }
}

std::vector<Start> startsOf(std::span<const Wanted> wanted) {
    std::vector<Start> starts;
    runMany(wanted, [&](std::size_t, Run run) {
        starts.push_back(std::move(run.start));
        starts.back().waveform = {};
        starts.back().frames.clear();
    });
    return starts;
}

Run run(const Installation& installation, const RunSettings& settings, bool reduced) {
    Run result{.netlist = netlistOf(installation, settings, reduced)};
    const auto pool = makePool(1);
    result.solved = study::requireSolved(pool->run({&result.netlist.job, 1}).front());
    result.start = start::read(result.solved, result.netlist);
    return result;
}

Examination examine(const Installation& installation) {
    const auto pool = makePool();
    return study::runStart(*pool, installation, file::embeddedModels(), [](const std::string&) {});
}

Examination examineBriefly(const Installation& installation) {
    Examination found;
    Run whole = run(installation, {});
    found.network = std::move(whole.netlist.network);
    found.start = std::move(whole.start);
    if (found.start.outcome == Outcome::Trips)
        found.held_off = run(installation, {.held_off = true, .attempts = 1}).start;
    found.verdict =
        verdict::judge(installation, found.start, found.held_off ? &*found.held_off : nullptr);
    return found;
}

std::vector<int> childrenOf(int parent) {
    std::vector<int> children;
    for (const auto& entry : std::filesystem::directory_iterator("/proc")) {
        std::ifstream file(entry.path() / "stat");
        std::string text;
        if (!std::getline(file, text))
            continue;
        int parent_pid = 0;
        char state = 0;
        std::istringstream rest(text.substr(text.rfind(')') + 1));
        rest >> state >> parent_pid;
        if (parent_pid == parent)
            children.push_back(std::stoi(entry.path().filename().string()));
    }
    return children;
}

Output program(const std::string& arguments) {
    Output output;
    const std::string command = std::string(EBBLINE_PROGRAM) + " " + arguments;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr)
        throw std::system_error(errno, std::generic_category(), "popen");
    std::array<char, 4096> buffer{};
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe))
        output.text.append(buffer.data(), got);
    output.status = WEXITSTATUS(pclose(pipe));
    return output;
}

} // namespace ebbline::runs
