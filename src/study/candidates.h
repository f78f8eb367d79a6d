// SPDX-License-Identifier: MIT
// Remedies to be tried, each as a row of steps from the smallest to the largest.
#pragma once

#include "ebbline/remedies.h"

namespace ebbline::study {

struct Candidate {
    Remedy remedy;
    std::vector<RemedyStep> steps; ///< smallest first; outcome and margin not known yet
};

/// `network` is the installation's, nothing merged.
[[nodiscard]] std::vector<Candidate>
findCandidates(const Network& network, const Catalogues& catalogues, Outcome outcome);

/// The installation with the step made.
[[nodiscard]] Installation
withStep(const Installation& installation, RemedyKind kind, const RemedyStep& step);

} // namespace ebbline::study
