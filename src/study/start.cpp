// SPDX-License-Identifier: MIT
// One start with everything that is said about it.
#include "budget.h"

#include "ebbline/engine.h"
#include "ebbline/error.h"
#include "ebbline/study.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <array>
#include <utility>

namespace ebbline::study {
namespace {

template <class... Cases>
struct Overload : Cases... {
    using Cases::operator()...;
};

void conclude(Examination& result, const Installation& installation) {
    result.verdict =
        verdict::judge(installation, result.start, result.held_off ? &*result.held_off : nullptr);
    result.loop_ohm = network::loopOhm(result.network);
}

Start runOne(Engine& engine,
             const Network& network,
             const Models& models,
             const RunSettings& settings) {
    const Netlist netlist = netlist::build(network, models, settings);
    return start::read(requireSolved(std::move(engine.run({&netlist.job, 1}).front())), netlist);
}

} // namespace

Solved requireSolved(Solution solution) {
    return std::visit(
        Overload{
            [](Solved& solved) { return std::move(solved); },
            [](const NotSolved& failed) -> Solved {
                throw EngineError(words("not solved: {}", engine::reasonInWords(failed.reason)) +
                                  "\n" + failed.log);
            },
            [](const TimedOut& failed) -> Solved {
                throw EngineError(words("no answer within {} s", text::figure(failed.deadline_s)));
            },
            [](const Crashed& failed) -> Solved {
                throw EngineError(
                    words("the worker was lost: {}", engine::reasonInWords(failed.reason)));
            },
            [](const Rejected& failed) -> Solved {
                throw EngineError(words("the worker's answer was refused: {}",
                                        engine::reasonInWords(failed.reason)));
            },
        },
        solution);
}

Examination runStartAlone(Engine& engine,
                          const Installation& installation,
                          const Models& models,
                          const Progress& progress) {
    Examination result;
    result.network = network::reduce(network::build(installation, models.catalogues));
    progress(words("simulating the start"));
    result.start = runOne(engine, result.network, models, {});
    if (result.start.outcome == Outcome::Trips) {
        progress(words("once more with the cut-out held off"));
        result.held_off = runOne(engine, result.network, models, {.held_off = true, .attempts = 1});
    }
    conclude(result, installation);
    return result;
}

Accuracy draftAccuracy(const Installation& installation) {
    const auto& unit = std::get<Controller>(installation.findPart(installation.subject)->body);
    return unit.pressure_pct > 0 ? Accuracy::Final : Accuracy::Draft;
}

Examination runDraft(Engine& engine, const Installation& installation, const Models& models) {
    Examination result{.accuracy = Accuracy::Draft,
                       .network = network::reduce(network::build(installation, models.catalogues))};
    std::array<Netlist, 2> netlists;
    std::array<Job, 2> jobs;
    const Accuracy accuracy = draftAccuracy(installation);
    for (const std::size_t twin : {0U, 1U}) {
        netlists[twin] = netlist::build(
            result.network, models, {.accuracy = accuracy, .held_off = twin == 1, .attempts = 1});
        jobs[twin] = netlists[twin].job;
    }
    std::vector<Solution> solutions = engine.run(jobs);
    result.start = start::read(requireSolved(std::move(solutions[0])), netlists[0]);
    if (result.start.outcome == Outcome::Trips)
        result.held_off = start::read(requireSolved(std::move(solutions[1])), netlists[1]);
    conclude(result, installation);
    return result;
}

Examination runStart(Engine& engine,
                     const Installation& installation,
                     const Models& models,
                     const Progress& progress) {
    Examination result = runStartAlone(engine, installation, models, progress);
    const bool starts = result.start.outcome == Outcome::Starts;
    if (starts || result.start.outcome == Outcome::Trips) {
        progress(words("finding how much resistance the supply loop may have"));
        result.loop_limit_ohm = findLoopLimit(
            engine, result.network, models, starts ? result.verdict.headroom_v : std::nullopt);
    }
    return result;
}

} // namespace ebbline::study
