// SPDX-License-Identifier: MIT
// Questions that take more than one run: the start with its held-off twin and its loop budget.
#pragma once

#include "ebbline/engine.h"
#include "ebbline/verdict.h"

#include <functional>
#include <optional>
#include <string>

namespace ebbline {

/// One start, judged: what `ebbline start` prints.
struct Examination {
    Accuracy accuracy = Accuracy::Final;
    Network network;
    Start start;
    std::optional<Start> held_off; ///< there when the cut-out acted
    Verdict verdict;
    double loop_ohm = 0; ///< supply loop out and back, battery left out
    /// Greatest loop resistance at which this unit on this battery still starts; absent when it
    /// starts at no resistance, or when resistance is not what keeps it from starting.
    std::optional<double> loop_limit_ohm;
};

namespace study {

/// Told what is being done before each longer step.
using Progress = std::function<void(const std::string&)>;

/// Runs the start, its held-off twin and the loop budget. Throws EngineError when a run that the
/// answer needs was not solved.
[[nodiscard]] Examination runStart(Engine& engine,
                                   const Installation& installation,
                                   const Models& models,
                                   const Progress& progress);

/// The same without the loop budget, which takes most of the time: what a picture needs.
[[nodiscard]] Examination runStartAlone(Engine& engine,
                                        const Installation& installation,
                                        const Models& models,
                                        const Progress& progress);

/// What a draft of the installation needs: mean torque knows nothing of a rotor that stalls against
/// the pressure of the run before, so there it is a final run.
[[nodiscard]] Accuracy draftAccuracy(const Installation& installation);

/// The same as a draft, which ends with the first attempt: for a picture that follows the hand. The
/// start and its held-off twin run side by side.
[[nodiscard]] Examination
runDraft(Engine& engine, const Installation& installation, const Models& models);

/// The same as runStartAlone, with what its draft came to: where that tripped, the twin runs beside
/// the start and not after it, so that the answer is there in the time of one run.
[[nodiscard]] Examination
runFinal(Engine& engine, const Installation& installation, const Models& models, Outcome draft);

/// The solved run, or EngineError that says what happened to it.
[[nodiscard]] Solved requireSolved(Solution solution);

} // namespace study
} // namespace ebbline
