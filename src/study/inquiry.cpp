// SPDX-License-Identifier: MIT
// One installation, asked everything that its report says.
#include "ebbline/inquiry.h"

#include "ebbline/words.h"

#include <algorithm>
#include <utility>

namespace ebbline::study {
namespace {

/// Before advice that falls short stands the first remedy that does by itself.
void addCure(Headline& headline, const std::vector<Remedy>& remedies) {
    if (!headline.falls_short)
        return;
    for (const Remedy& remedy : remedies)
        if (remedy.cure) {
            headline.action =
                words("This alone would do: {}.", actionWords(remedy, remedy.cure->value)) + " " +
                headline.action;
            return;
        }
}

/// Dark where nothing reaches it, and where the controller that drives it is dead.
LampPattern findLamp(const Installation& installation, const Models& models, const Start& start) {
    const auto& unit = std::get<Controller>(installation.findPart(installation.subject)->body);
    const auto found = models.catalogues.lamps.find(std::string(nameOf(start.outcome)));
    return unit.dead || found == models.catalogues.lamps.end() ? LampPattern{} : found->second;
}

} // namespace

Inquiry judge(Examination examination,
              std::vector<Remedy> remedies,
              const Installation& installation,
              const Models& models,
              const RuleSettings& settings) {
    Inquiry inquiry{.examination = std::move(examination), .remedies = std::move(remedies)};
    const Examination& found = inquiry.examination;
    const Network network = network::build(installation, models.catalogues);
    const Evidence evidence{.start = found.start,
                            .held_off = found.held_off ? &*found.held_off : nullptr,
                            .verdict = found.verdict};
    inquiry.rules = verdict::judgeRules(network, models.catalogues, evidence, settings);
    inquiry.losses = verdict::findLosses(network, models.catalogues, evidence, settings);
    inquiry.headline = verdict::headline(network, models.catalogues, evidence, settings);
    inquiry.lamp = findLamp(installation, models, found.start);
    addCure(inquiry.headline, inquiry.remedies);
    return inquiry;
}

Inquiry inquire(Engine& engine,
                const Installation& installation,
                const Models& models,
                const RuleSettings& settings,
                const Progress& progress) {
    Examination examination = runStart(engine, installation, models, progress);
    auto remedies = findRemedies(engine, installation, models, examination, progress);
    return judge(std::move(examination), std::move(remedies), installation, models, settings);
}

Inquiry inquireBriefly(Engine& engine,
                       const Installation& installation,
                       const Models& models,
                       const RuleSettings& settings,
                       const Progress& progress) {
    return judge(
        runStartAlone(engine, installation, models, progress), {}, installation, models, settings);
}

} // namespace ebbline::study
