// SPDX-License-Identifier: MIT
// Runs of the real engine for tests.
#include "runs.h"

#include "ebbline/file.h"

#include <sys/wait.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <system_error>

namespace ebbline::runs {

std::unique_ptr<Engine> makePool(int workers) {
    return engine::makePool({.workers = workers, .program = EBBLINE_PROGRAM});
}

Run run(const Installation& installation, const RunSettings& settings, bool reduced) {
    const Models& models = file::embeddedModels();
    Network network = network::build(installation, models.catalogues);
    if (reduced)
        network = network::reduce(std::move(network));
    Run result{.netlist = netlist::build(network, models, settings)};
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
    found.start = run(installation, {}).start;
    if (found.start.outcome == Outcome::Trips)
        found.held_off = run(installation, {.held_off = true, .attempts = 1}).start;
    found.verdict =
        verdict::judge(installation, found.start, found.held_off ? &*found.held_off : nullptr);
    return found;
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
