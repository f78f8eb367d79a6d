// SPDX-License-Identifier: MIT
// One installation, asked everything that its report says.
#include "ebbline/inquiry.h"

#include <utility>

namespace ebbline::study {

Inquiry judge(Examination examination,
              const Installation& installation,
              const Models& models,
              const RuleSettings& settings) {
    Inquiry inquiry{.examination = std::move(examination)};
    const Examination& found = inquiry.examination;
    const Network network = network::build(installation, models.catalogues);
    const Evidence evidence{.start = found.start,
                            .held_off = found.held_off ? &*found.held_off : nullptr,
                            .verdict = found.verdict};
    inquiry.rules = verdict::judgeRules(network, models.catalogues, evidence, settings);
    inquiry.losses = verdict::findLosses(network, models.catalogues, evidence, settings);
    inquiry.headline = verdict::headline(network, models.catalogues, evidence, settings);
    return inquiry;
}

Inquiry inquire(Engine& engine,
                const Installation& installation,
                const Models& models,
                const RuleSettings& settings,
                const Progress& progress) {
    Inquiry inquiry =
        judge(runStart(engine, installation, models, progress), installation, models, settings);
    inquiry.remedies = findRemedies(engine, installation, models, inquiry.examination, progress);
    return inquiry;
}

Inquiry inquireBriefly(Engine& engine,
                       const Installation& installation,
                       const Models& models,
                       const RuleSettings& settings,
                       const Progress& progress) {
    return judge(
        runStartAlone(engine, installation, models, progress), installation, models, settings);
}

} // namespace ebbline::study
