// SPDX-License-Identifier: MIT
// The classic trap, on the terminal, on the page and in the picture: the 10 % rule is kept, and the
// fridge does not start.
#include "drawn.h"
#include "runs.h"

#include "ebbline/drawing.h"
#include "ebbline/html.h"
#include "ebbline/inquiry.h"
#include "ebbline/report.h"
#include "ebbline/telling.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const char* const outcome_words = "The fridge does not start: its low-voltage cut-out acts.";

Inquiry inquire(const std::string& scene) {
    const auto pool = runs::makePool();
    return study::inquireBriefly(*pool,
                                 drawn::scene(scene),
                                 file::embeddedModels(),
                                 {.drop = DropChoice{10, "no maker asks for less"}},
                                 [](const std::string&) {});
}

const RuleFinding& find(const Inquiry& inquiry, const std::string& rule) {
    return *std::ranges::find(inquiry.rules, rule, &RuleFinding::rule);
}

/// The words of the report in the order in which they are read: no style, no script, no tags.
std::string readAloud(std::string page) {
    for (const char* unread : {"style", "script", "svg", "title"}) {
        const std::string opening = "<" + std::string(unread);
        const std::string closing = "</" + std::string(unread) + ">";
        for (std::size_t at = page.find(opening); at != std::string::npos; at = page.find(opening))
            page.erase(at, page.find(closing, at) + closing.size() - at);
    }
    std::string words;
    bool in_tag = false;
    for (const char letter : page) {
        if (letter == '<')
            in_tag = true;
        if (!in_tag)
            words += letter;
        if (letter == '>')
            in_tag = false;
    }
    return words;
}

/// What is read below the scene's own title.
std::string belowTitle(const std::string& text, const Inquiry& inquiry) {
    const std::string& title = inquiry.examination.network.installation.title;
    const std::size_t at = text.find(title);
    REQUIRE(text.find_first_not_of(" \n") == at); // nothing stands above it
    return text.substr(at + title.size());
}

/// The outcome before anything of rules, and no rule of drop that reads like a pass.
void checkReading(const std::string& text) {
    const std::size_t outcome = text.find(outcome_words);
    REQUIRE(outcome != std::string::npos);
    const std::size_t kept = text.find("kept");
    REQUIRE(kept != std::string::npos);
    CHECK(outcome < kept);
    CHECK(outcome < text.find("10 %"));
    CHECK(text.find("BROKEN") < text.find("kept (drop only)"));
    CHECK_THAT(text, Contains("kept (drop only)") && Contains("Says nothing about starting."));
    CHECK_THAT(text,
               Contains("Whether the fridge starts is said by 'headroom' alone") ||
                   Contains("Whether the fridge starts is said by &apos;headroom&apos;") ||
                   Contains("Whether the fridge starts is said by &#39;headroom&#39;"));
    CHECK_THAT(text, !Contains("The fridge starts"));
}

std::vector<Label> labelsOf(const Drawing& drawing) {
    std::vector<Label> labels;
    for (const Group& group : drawing.groups)
        for (const auto& item : group.items)
            if (const auto* label = std::get_if<Label>(&item))
                labels.push_back(*label);
    return labels;
}

/// The largest text is the outcome, and nothing in the picture passes a rule.
void checkPicture(const Drawing& drawing) {
    const std::vector<Label> labels = labelsOf(drawing);
    REQUIRE_FALSE(labels.empty());
    const Label& largest = *std::ranges::max_element(labels, {}, &Label::size);
    CHECK_THAT(largest.text, StartsWith("Does not start"));
    CHECK_THAT(drawing.meaning, Contains("Does not start"));
    for (const Label& label : labels) {
        CAPTURE(label.text);
        CHECK_THAT(label.text, !Contains("kept") && !StartsWith("Starts"));
    }
}

} // namespace

TEST_CASE("a rule of drop that is kept cannot be read as a start, in text, page or picture",
          "[rules][report]") {
    for (const char* scene : {"quay-08.toml", "cabin-01.toml"}) {
        CAPTURE(scene);
        const Inquiry inquiry = inquire(scene);
        REQUIRE(inquiry.examination.start.outcome == Outcome::Trips);
        CHECK(find(inquiry, "drop-10-percent").state == RuleState::Kept);
        CHECK(find(inquiry, "headroom").state == RuleState::Broken);
        checkReading(belowTitle(report::writeText(inquiry), inquiry));
        checkReading(belowTitle(readAloud(report::writeHtml(inquiry, {})), inquiry));
        const Moment worst{inquiry, drawing::tellingMoment(inquiry.examination.start)};
        checkPicture(drawing::page(worst, {}));
        checkPicture(drawing::room(worst, {.width = 1600, .height = 1000}));
    }
}
