// SPDX-License-Identifier: MIT
// The whole answer to "will it start, and if not, why": what a report is made of.
#pragma once

#include "ebbline/remedies.h"
#include "ebbline/rules.h"

#include <vector>

namespace ebbline {

struct Inquiry {
    Examination examination;
    Headline headline;
    std::vector<RuleFinding> rules;
    std::vector<Loss> losses; ///< row by row those of the start's ledger
    std::vector<Remedy> remedies;
    LampPattern lamp; ///< what the controller's lamp shows after the first try
};

namespace study {

/// What rules, ledger and verdict say of runs that were made before, in the reader's language.
[[nodiscard]] Inquiry judge(Examination examination,
                            std::vector<Remedy> remedies,
                            const Installation& installation,
                            const Models& models,
                            const RuleSettings& settings);

/// Simulates, judges, and tries what would make it start. Throws EngineError.
[[nodiscard]] Inquiry inquire(Engine& engine,
                              const Installation& installation,
                              const Models& models,
                              const RuleSettings& settings,
                              const Progress& progress);

/// The same without the loop budget and without remedies: enough for one picture.
[[nodiscard]] Inquiry inquireBriefly(Engine& engine,
                                     const Installation& installation,
                                     const Models& models,
                                     const RuleSettings& settings,
                                     const Progress& progress);

} // namespace study
} // namespace ebbline
