// SPDX-License-Identifier: MIT
// A drawn installation with a start made up for it, held against the rules.
#pragma once

#include "drawn.h"

#include "ebbline/rules.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

namespace ebbline::ruled {

/// What one test holds against the rules. The start is made up: it draws a steady current.
struct Case {
    Installation drawn = drawn::feed({});
    Catalogues catalogues = file::embeddedModels().catalogues;
    Start start{.outcome = Outcome::Starts, .peak_a = 9, .running_a = 5};
    Verdict verdict{.margin = Margin::Clear, .headroom_v = 0.8};
    RuleSettings settings;

    [[nodiscard]] std::vector<RuleFinding> findings() const {
        const Network network = network::build(drawn, catalogues);
        return verdict::judgeRules(
            network, catalogues, {.start = start, .verdict = verdict}, settings);
    }
    /// The first finding of a rule, about one thing if it is named.
    [[nodiscard]] RuleFinding find(const std::string& rule, const std::string& on = "") const {
        for (const RuleFinding& finding : findings())
            if (finding.rule == rule && (on.empty() || finding.on == on))
                return finding;
        throw std::runtime_error("no finding of " + rule + " " + on);
    }
    [[nodiscard]] RuleState state(const std::string& rule, const std::string& on = "") const {
        return find(rule, on).state;
    }
};

/// The case with another drawing.
[[nodiscard]] inline Case of(const drawn::Feed& feed, const std::string& rules = "") {
    Case made;
    made.drawn = drawn::feed(feed);
    made.drawn.rules = rules;
    return made;
}

[[nodiscard]] inline Size mm2(double value) {
    return {SizeScale::Mm2, value};
}
[[nodiscard]] inline Size awg(double value) {
    return {SizeScale::Awg, value};
}
[[nodiscard]] inline Size sae(double value) {
    return {SizeScale::Sae, value};
}

} // namespace ebbline::ruled
