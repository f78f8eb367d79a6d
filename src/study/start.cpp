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

/// The start and its held-off twin side by side, whether or not the twin turns out to be wanted.
Examination runTwins(Engine& engine,
                     const Installation& installation,
                     const Models& models,
                     const RunSettings& settings) {
    Examination result;
    result.network = network::reduce(network::build(installation, models.catalogues));
    const RunSettings held_off{.accuracy = settings.accuracy, .held_off = true, .attempts = 1};
    const std::array netlists{netlist::build(result.network, models, settings),
                              netlist::build(result.network, models, held_off)};
    const std::array jobs{netlists[0].job, netlists[1].job};
    std::vector<Solution> solutions = engine.run(jobs);
    result.start = start::read(requireSolved(std::move(solutions[0])), netlists[0]);
    if (result.start.outcome == Outcome::Trips)
        result.held_off = start::read(requireSolved(std::move(solutions[1])), netlists[1]);
    conclude(result, installation);
    return result;
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
    Examination result = runTwins(
        engine, installation, models, {.accuracy = draftAccuracy(installation), .attempts = 1});
    result.accuracy = Accuracy::Draft;
    return result;
}

Examination
runFinal(Engine& engine, const Installation& installation, const Models& models, Outcome draft) {
    if (draft == Outcome::Trips)
        return runTwins(engine, installation, models, {});
    return runStartAlone(engine, installation, models, [](const std::string&) {});
}

Examination runStart(Engine& engine,
                     const Installation& installation,
                     const Models& models,
                     const Progress& progress) {
    Examination result = runStartAlone(engine, installation, models, progress);
    addLoopLimit(engine, models, result, progress);
    return result;
}

void addLoopLimit(Engine& engine,
                  const Models& models,
                  Examination& examination,
                  const Progress& progress) {
    const bool starts = examination.start.outcome == Outcome::Starts;
    if (!starts && examination.start.outcome != Outcome::Trips)
        return;
    progress(words("finding how much resistance the supply loop may have"));
    examination.loop_limit_ohm =
        findLoopLimit(engine,
                      examination.network,
                      models,
                      starts ? examination.verdict.headroom_v : std::nullopt);
}

} // namespace ebbline::study
