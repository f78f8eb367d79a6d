// SPDX-License-Identifier: MIT
// The rules and the avoidable losses as text and as JSON. Keeping a drop rule is no pass.
#include "objects.h"
#include "words.h"

#include "ebbline/report.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>

namespace ebbline::report {
namespace {

using text::fixed;

std::string describe(const RuleFinding& finding) {
    std::string out = fmt::format("  {:<16}  {:<24}  {}",
                                  stateWords(finding),
                                  finding.rule,
                                  text::escapeControls(finding.on));
    if (const std::string figures = figureWords(finding); !figures.empty())
        out += ": " + figures;
    out += "\n      " + text::escapeControls(finding.reason) + "\n";
    if (!finding.source.empty())
        out += "      " + words("Source: {}", finding.source) + "\n";
    if (finding.unchecked)
        out += fmt::format("      {}\n", words(unchecked_words));
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
           (headline.action.empty()
                ? ""
                : words("First: {}", text::escapeControls(headline.action)) + "\n");
}

std::string writeRules(std::span<const RuleFinding> findings) {
    std::string out = words("Rules") + "\n";
    for (const RuleFinding* finding : sortByWeight(findings))
        out += describe(*finding);
    return out + fmt::format("  {}\n", words(rules_words));
}

std::string writeLosses(std::span<const Loss> losses) {
    std::size_t width = 7;
    for (const Loss& loss : losses)
        width = std::max(width, text::width(loss.element));
    std::string out = words("Where it is lost, and what of it need not be") + "\n";
    for (const Loss& loss : losses)
        out += words("  {:<{}}  {:>6} V  {:>6} V needless  {:<8}  {}\n",
                     loss.element,
                     width,
                     fixed(loss.volts, 3),
                     fixed(loss.avoidable_v, 3),
                     basisWords(loss.basis),
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
