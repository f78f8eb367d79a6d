// SPDX-License-Identifier: MIT
// Trying remedies: drafts find the neighbourhood by halving, final runs decide.
#include "candidates.h"

#include <algorithm>
#include <array>
#include <compare>
#include <iterator>
#include <map>
#include <utility>

namespace ebbline {

std::string_view nameOf(RemedyKind kind) {
    static constexpr std::array<std::string_view, 17> names{"switch-on",
                                                            "renew-fuse",
                                                            "remake-joint",
                                                            "remake-joints",
                                                            "renew-contact",
                                                            "renew-holder",
                                                            "renew-cable",
                                                            "charge-battery",
                                                            "renew-battery",
                                                            "charger-on",
                                                            "other-loads-off",
                                                            "let-rest",
                                                            "mend-unit",
                                                            "larger-fuse",
                                                            "thicker-cable",
                                                            "shorter-way",
                                                            "double-voltage"};
    return names.at(static_cast<std::size_t>(kind));
}

bool isRepair(RemedyKind kind) {
    return kind < RemedyKind::LargerFuse;
}

namespace study {
namespace {

/// One step of one candidate.
struct Trial {
    const Candidate* candidate = nullptr;
    std::size_t index = 0;
    auto operator<=>(const Trial&) const = default;
};

class Trials {
public:
    Trials(Engine& engine, const Installation& installation, const Models& models)
        : m_engine(engine), m_installation(installation), m_models(models) {}

    [[nodiscard]] std::vector<RemedyStep> run(const std::vector<Trial>& trials,
                                              Accuracy accuracy) const {
        std::vector<Netlist> netlists;
        std::vector<Job> jobs;
        netlists.reserve(trials.size());
        jobs.reserve(trials.size());
        for (const Trial& trial : trials) {
            netlists.push_back(
                netlist::build(network::reduce(network::build(changed(trial), m_models.catalogues)),
                               m_models,
                               {.accuracy = accuracy, .attempts = 1}));
            jobs.push_back(netlists.back().job);
        }
        std::vector<Solution> solutions = m_engine.run(jobs);
        std::vector<RemedyStep> steps;
        steps.reserve(trials.size());
        for (std::size_t i = 0; i < trials.size(); ++i)
            steps.push_back(judge(trials[i], std::move(solutions[i]), netlists[i]));
        return steps;
    }

    /// Runs what has not been run yet at final accuracy, all at once.
    void settle(std::vector<Trial> trials) {
        std::erase_if(trials, [&](const Trial& trial) { return m_final.contains(trial); });
        std::vector<RemedyStep> steps = run(trials, Accuracy::Final);
        for (std::size_t i = 0; i < trials.size(); ++i)
            m_final.emplace(trials[i], std::move(steps[i]));
    }

    [[nodiscard]] const RemedyStep& final(const Trial& trial) {
        settle({trial});
        return m_final.at(trial);
    }

private:
    [[nodiscard]] Installation changed(const Trial& trial) const {
        return withStep(
            m_installation, trial.candidate->remedy.kind, trial.candidate->steps[trial.index]);
    }

    [[nodiscard]] RemedyStep
    judge(const Trial& trial, Solution solution, const Netlist& netlist) const {
        RemedyStep step = trial.candidate->steps[trial.index];
        const Start start = start::read(requireSolved(std::move(solution)), netlist);
        step.outcome = start.outcome;
        if (start.outcome != Outcome::Starts)
            return step;
        const Verdict verdict = verdict::judge(changed(trial), start, nullptr);
        step.margin = verdict.margin;
        step.headroom_v = verdict.headroom_v;
        return step;
    }

    Engine& m_engine;
    const Installation& m_installation;
    const Models& m_models;
    std::map<Trial, RemedyStep> m_final;
};

bool isClear(const RemedyStep& step) {
    return step.margin == Margin::Clear;
}

/// Where the first step of a candidate that starts clear lies.
struct Span {
    const Candidate* candidate = nullptr;
    std::size_t from = 0;
    std::size_t to = 0;
    [[nodiscard]] Trial middle() const { return {candidate, (from + to) / 2}; }
};

/// Index of the first step of each candidate that starts clear in a draft; how many there are where
/// none does. Each halves its steps, which go from little to much; all of them at a time.
std::vector<std::size_t> sketch(const Trials& trials, const std::vector<Candidate>& candidates) {
    std::vector<Span> spans;
    spans.reserve(candidates.size());
    for (const Candidate& candidate : candidates)
        spans.push_back({&candidate, 0, candidate.steps.size()});
    for (;;) {
        std::vector<Span*> open;
        std::vector<Trial> middles;
        for (Span& span : spans)
            if (span.from < span.to) {
                open.push_back(&span);
                middles.push_back(span.middle());
            }
        if (open.empty())
            break;
        const auto drafts = trials.run(middles, Accuracy::Draft);
        for (std::size_t i = 0; i < open.size(); ++i)
            if (isClear(drafts[i]))
                open[i]->to = middles[i].index;
            else
                open[i]->from = middles[i].index + 1;
    }
    std::vector<std::size_t> first;
    std::ranges::transform(spans, std::back_inserter(first), &Span::from);
    return first;
}

/// The step that the draft found and the one below it, or the largest where it found none.
std::vector<Trial> neighbourhood(const Candidate& candidate, std::size_t first) {
    if (first == candidate.steps.size())
        return {{&candidate, first - 1}};
    if (first == 0)
        return {{&candidate, first}};
    return {{&candidate, first - 1}, {&candidate, first}};
}

/// The smallest step that starts clear, with the one below it.
Remedy conclude(Trials& trials, const Candidate& candidate, std::size_t index) {
    Remedy remedy = candidate.remedy;
    const auto clear = [&](std::size_t i) { return isClear(trials.final({&candidate, i})); };
    // A draft is a few millivolts off, either way.
    while (index < candidate.steps.size() && !clear(index))
        ++index;
    while (index > 0 && clear(index - 1))
        --index;
    if (index > 0)
        remedy.below = trials.final({&candidate, index - 1});
    if (index < candidate.steps.size())
        remedy.cure = trials.final({&candidate, index});
    return remedy;
}

/// Repairs first, and of each what cures before what does not suffice.
std::vector<Remedy> byWeight(std::vector<Remedy> remedies) {
    std::vector<Remedy> sorted;
    sorted.reserve(remedies.size());
    for (const bool is_repair : {true, false})
        for (const bool is_cure : {true, false})
            for (Remedy& remedy : remedies)
                if (isRepair(remedy.kind) == is_repair && remedy.cure.has_value() == is_cure)
                    sorted.push_back(std::move(remedy));
    return sorted;
}

} // namespace

std::vector<Remedy> findRemedies(Engine& engine,
                                 const Installation& installation,
                                 const Models& models,
                                 const Examination& examination,
                                 const Progress& progress) {
    std::vector<Remedy> remedies;
    if (examination.verdict.margin == Margin::Clear)
        return remedies;
    progress(words("trying what would make it start"));
    const Network network = network::build(installation, models.catalogues);
    const auto candidates = findCandidates(network, models.catalogues, examination.start.outcome);
    Trials trials(engine, installation, models);
    const auto first = sketch(trials, candidates);
    std::vector<Trial> near;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        std::ranges::copy(neighbourhood(candidates[i], first[i]), std::back_inserter(near));
    trials.settle(std::move(near));
    for (std::size_t i = 0; i < candidates.size(); ++i)
        remedies.push_back(conclude(trials, candidates[i], first[i]));
    return byWeight(std::move(remedies));
}

} // namespace study
} // namespace ebbline
