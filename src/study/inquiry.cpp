// SPDX-License-Identifier: MIT
// One installation, asked everything that its report says.
#include "ebbline/inquiry.h"

namespace ebbline::study {

Inquiry inquire(Engine& engine,
                const Installation& installation,
                const Models& models,
                const RuleSettings& settings,
                const Progress& progress) {
    Inquiry inquiry{.examination = runStart(engine, installation, models, progress)};
    const Examination& found = inquiry.examination;
    const Network network = network::build(installation, models.catalogues);
    const Evidence evidence{.start = found.start,
                            .held_off = found.held_off ? &*found.held_off : nullptr,
                            .verdict = found.verdict};
    inquiry.rules = verdict::judgeRules(network, models.catalogues, evidence, settings);
    inquiry.losses = verdict::findLosses(network, models.catalogues, evidence, settings);
    inquiry.headline = verdict::headline(network, models.catalogues, evidence, settings);
    inquiry.remedies = findRemedies(engine, installation, models, found, progress);
    return inquiry;
}

} // namespace ebbline::study
