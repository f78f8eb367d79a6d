// SPDX-License-Identifier: MIT
// The rules and the avoidable losses as text and as JSON. Keeping a drop rule is no pass.
#include "objects.h"

#include "ebbline/report.h"
#include "ebbline/text.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>

namespace ebbline::report {
namespace {

using text::fixed;

int decimalsOf(const std::string& unit) {
    return unit == "%" || unit == "A" ? 1 : 2;
}

/// A drop rule that is kept must not look like a fridge that starts.
std::string stateWords(const RuleFinding& finding) {
    const bool is_drop = finding.rule.starts_with("drop-");
    switch (finding.state) {
    case RuleState::Kept:
        return is_drop ? "kept (drop only)" : "kept";
    case RuleState::Broken:
        return "BROKEN";
    case RuleState::NotJudged:
        return "not judged";
    }
    return "";
}

std::string figures(const RuleFinding& finding) {
    const int decimals = decimalsOf(finding.unit);
    if (!finding.value)
        return "";
    std::string words = fixed(finding.value, decimals) + " " + finding.unit;
    if (finding.limit)
        words += std::string(", ") + (finding.limit_is_least ? "at least " : "at most ") +
                 fixed(finding.limit, decimals) + " " + finding.unit;
    return words;
}

/// Broken first, then what was not judged, then what is kept; each in the rules' own order.
std::vector<const RuleFinding*> byWeight(std::span<const RuleFinding> findings) {
    static constexpr std::array<RuleState, 3> order{
        RuleState::Broken, RuleState::NotJudged, RuleState::Kept};
    std::vector<const RuleFinding*> sorted;
    for (const RuleState state : order)
        for (const RuleFinding& finding : findings)
            if (finding.state == state)
                sorted.push_back(&finding);
    return sorted;
}

std::string describe(const RuleFinding& finding) {
    std::string out = fmt::format("  {:<16}  {:<24}  {}",
                                  stateWords(finding),
                                  finding.rule,
                                  text::escapeControls(finding.on));
    if (const std::string words = figures(finding); !words.empty())
        out += ": " + words;
    out += "\n      " + text::escapeControls(finding.reason) + "\n";
    if (!finding.source.empty())
        out += "      Source: " + finding.source + "\n";
    if (finding.unchecked)
        out += "      Rests on a value from memory, not yet compared with the standard.\n";
    return out;
}

template <class Things>
std::string dump(const Things& things) {
    Json array = Json::array();
    for (const auto& thing : things)
        array.push_back(toJson(thing));
    return array.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace

std::string writeHeadline(const Headline& headline) {
    return text::escapeControls(headline.cause) + "\n" +
           (headline.action.empty() ? ""
                                    : "First: " + text::escapeControls(headline.action) + "\n");
}

std::string writeRules(std::span<const RuleFinding> findings) {
    std::string out = "Rules\n";
    for (const RuleFinding* finding : byWeight(findings))
        out += describe(*finding);
    out += "  Whether the fridge starts is said by 'headroom' alone. Local codes and licensed "
           "practice come first.\n";
    return out;
}

std::string writeLosses(std::span<const Loss> losses) {
    std::size_t width = 7;
    for (const Loss& loss : losses)
        width = std::max(width, text::width(loss.element));
    std::string out = "Where it is lost, and what of it need not be\n";
    for (const Loss& loss : losses)
        out += fmt::format("  {:<{}}  {:>6} V  {:>6} V needless  {:<8}  {}\n",
                           loss.element,
                           width,
                           fixed(loss.volts, 3),
                           fixed(loss.avoidable_v, 3),
                           nameOf(loss.basis),
                           loss.sum);
    return out;
}

std::string writeRulesJson(std::span<const RuleFinding> findings) {
    return dump(findings);
}

std::string writeLossesJson(std::span<const Loss> losses) {
    return dump(losses);
}

} // namespace ebbline::report
