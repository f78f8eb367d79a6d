// SPDX-License-Identifier: MIT
// The page that travels, of real starts: what is played, and what is written.
#include "drawn.h"
#include "hostile.h"
#include "report/film.h"
#include "report/words.h"
#include "runs.h"

#include "ebbline/html.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

Inquiry inquire(const Installation& installation) {
    const auto pool = runs::makePool();
    return study::inquireBriefly(
        *pool, installation, file::embeddedModels(), {}, [](const std::string&) {});
}

RemedyStep stepThat(Outcome outcome, Margin margin, std::optional<double> headroom_v) {
    return {.value = 4, .outcome = outcome, .margin = margin, .headroom_v = headroom_v};
}

/// The budget and the remedies would take most of the time; stated here, they are as good.
Inquiry makeThinCable() {
    Inquiry inquiry = inquire(drawn::scene("quay-02.toml"));
    inquiry.examination.loop_limit_ohm = 0.218;
    const auto clear = stepThat(Outcome::Starts, Margin::Clear, 0.9);
    const auto just = stepThat(Outcome::Starts, Margin::OnlyJust, 0.1);
    const auto no = stepThat(Outcome::Trips, Margin::No, std::nullopt);
    inquiry.remedies = {{.kind = RemedyKind::ChargeBattery, .on = "house", .below = no},
                        {.kind = RemedyKind::RemakeJoint, .on = "twin.1.to", .below = just},
                        {.kind = RemedyKind::ThickerCable, .on = "twin", .cure = clear}};
    return inquiry;
}

const Inquiry& thinCable() {
    static const Inquiry inquiry = makeThinCable();
    return inquiry;
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
        ++found;
    return found;
}

/// The text of the element with that opening tag.
std::string
within(const std::string& page, const std::string& opening, const std::string& closing) {
    const std::size_t begin = page.find(opening);
    REQUIRE(begin != std::string::npos);
    const std::size_t end = page.find(closing, begin);
    REQUIRE(end != std::string::npos);
    return page.substr(begin + opening.size(), end - begin - opening.size());
}

/// As HTML wants it, by this test's own hand.
std::string inHtml(const std::string& text) {
    std::string out;
    for (const char letter : text)
        switch (letter) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        case '\'':
            out += "&apos;";
            break;
        default:
            out += letter;
        }
    return out;
}

/// The page of an installation that says the same text everywhere.
std::string pageWith(const std::string& text) {
    static const Inquiry plain = thinCable();
    Inquiry inquiry = plain;
    Installation& installation = inquiry.examination.network.installation;
    installation.title = text;
    installation.note = text;
    for (Part& part : installation.parts) {
        part.name = text;
        part.note = text;
    }
    for (Run& run : installation.runs) {
        run.name = text;
        run.note = text;
    }
    return report::writeHtml(
        inquiry,
        {.version = text, .date = text, .scene = text, .scene_text = text, .changes = {text}});
}

/// Markup without pictures, data, style and script, which are looked at apart.
std::string outsidePictures(std::string page) {
    const auto remove = [&](const std::string& opening, const std::string& closing) {
        for (std::size_t at = page.find(opening); at != std::string::npos;
             at = page.find(opening, at + opening.size()))
            page.erase(at + opening.size(), page.find(closing, at) - at - opening.size());
    };
    remove("<script", "</script");
    remove("<style", "</style");
    remove("<svg", "</svg");
    return page;
}

} // namespace

TEST_CASE("what a page plays are the very pictures of each moment", "[report]") {
    const Inquiry& inquiry = thinCable();
    const report::Showing showing = report::makeShowing(inquiry);
    const std::vector<double>& at_s = showing.instants.at_s;
    CHECK(at_s.size() >= 80);
    CHECK(at_s.size() <= 150);
    CHECK(at_s[showing.instants.worst] == inquiry.examination.start.lowest_at_s);
    const auto plans = report::decode(showing.wide.pictures[0]);
    const auto gaps = report::decode(showing.narrow.pictures[1]);
    REQUIRE(plans.size() == at_s.size());
    REQUIRE(gaps.size() == at_s.size());
    for (std::size_t i = 0; i < at_s.size(); i += 9) {
        const Moment moment{inquiry, at_s[i]};
        CHECK(plans[i] == drawing::writeSvg(drawing::plan(moment, {.width = 960, .height = 280})));
        CHECK(gaps[i] ==
              drawing::writeSvg(drawing::gapChart(moment, {.width = 390, .height = 340})));
    }
    CHECK(plans.front() != plans[showing.instants.worst]);
    CHECK(count(showing.wide.outline, "<polyline") == 2);
}

TEST_CASE("a page holds everything that was found", "[report]") {
    const Inquiry& inquiry = thinCable();
    const Edition edition{.version = "7.7", .date = "2031-02-03", .scene = "quay.toml"};
    const std::string page = report::writeHtml(inquiry, edition);
    CHECK(page == report::writeHtml(inquiry, edition));
    CHECK(page.size() < 1'500'000);
    for (const char* section :
         {"verdict", "pictures", "lost", "rules", "remedies", "parts", "assumptions", "care"})
        CHECK_THAT(page, Contains("id=\"" + std::string(section) + "\""));
    const std::string ledger = within(page, "<tbody role=\"rowgroup\">", "</tbody>");
    CHECK(count(ledger, "<tr ") == inquiry.losses.size());
    for (const Loss& loss : inquiry.losses)
        CHECK_THAT(ledger, Contains(">" + loss.element + "<"));
    CHECK(count(page, "<article class=\"rule ") == inquiry.rules.size());
    for (const RuleFinding& finding : inquiry.rules) {
        CHECK_THAT(page, Contains(inHtml(text::tidyUnits(finding.reason))));
        CHECK_THAT(page, Contains(inHtml(text::tidyUnits(finding.source))));
    }
    // Only what starts clear is called a cure.
    const std::string remedies = within(page, "<section id=\"remedies\">", "</section>");
    CHECK_THAT(remedies,
               Contains(">not enough</span> charge house to 4 %") &&
                   Contains(">only just</span> remake the joint twin.1.to: not by this alone") &&
                   Contains(">starts clear</span> twin in 4 mm²: starts clear, 0.90 V"));
    CHECK(count(remedies, ">starts clear</span>") == 1);
    CHECK_THAT(page, Contains("does not start: its low-voltage cut-out acts"));
    CHECK_THAT(page, Contains("34 mΩ too many"));
    CHECK_THAT(page, Contains("1.5 mm² (nearest gauge AWG 16, 1.31 mm²)"));
    CHECK_THAT(page, Contains("9.10 m one way"));
    CHECK_THAT(page, Contains("Ebbline 7.7 · quay.toml") && Contains("2031-02-03"));
    // Without a date none is printed, and the hash is that of the bytes: of none, XXH3's own.
    const std::string undated = report::writeHtml(inquiry, {.version = "7.7"});
    CHECK_THAT(undated, Contains("99aa06d3014798d86001c324468d497f"));
    CHECK_THAT(undated, !Contains("2031"));
}

TEST_CASE("a hostile text stays a text on the page", "[report][hostile]") {
    std::vector<std::string> texts = hostile::texts();
    texts.insert(texts.end(),
                 {"</script><script>x</script>",
                  "<!-- <script",
                  "{{{script}}} {{title}}",
                  "' onload=x \" onload=x",
                  "]]></svg><b>"});
    const std::string plain = outsidePictures(pageWith("plain"));
    for (const std::string& text : texts) {
        INFO(text.substr(0, 100));
        const std::string page = pageWith(text);
        // Not a tag more than before, neither in the page nor within its data.
        CHECK(count(outsidePictures(page), "<") == count(plain, "<"));
        CHECK(count(page, "<script") == 2);
        CHECK(count(page, "</script") == 2);
        CHECK(count(page, "<!--") == 0);
        const std::string data =
            within(page, "<script type=\"application/json\" id=\"data\">", "</script>");
        CHECK(nlohmann::json::parse(data).at("words").is_array());
        CHECK(hostile::findControl(page).empty());
    }
}
