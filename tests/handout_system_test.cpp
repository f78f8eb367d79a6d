// SPDX-License-Identifier: MIT
// The answers to a class's sheet: they are the start itself, and the sheet is the class's.
#include "drawn.h"
#include "hostile.h"
#include "report/readings.h"
#include "runs.h"

#include "ebbline/drawing.h"
#include "ebbline/handout.h"
#include "ebbline/seen.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <regex>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

const Models& models() {
    static const Models embedded = file::embeddedModels();
    return embedded;
}

Inquiry inquire(const Installation& installation) {
    const auto pool = runs::makePool();
    return study::inquireBriefly(*pool, installation, models(), {}, [](const std::string&) {});
}

const HandoutEdition edition{.version = "7.7", .scene = "scene.toml"};

std::string answersOf(const Inquiry& inquiry) {
    return report::writeAnswerSheet(inquiry, models().catalogues, edition);
}

std::vector<std::string> findAll(const std::string& page, const std::string& expression) {
    const std::regex wanted(expression);
    std::vector<std::string> found;
    for (std::sregex_iterator at(page.begin(), page.end(), wanted), end; at != end; ++at)
        found.push_back((*at)[1]);
    return found;
}

std::vector<std::string> boxesOf(const std::string& page) {
    return findAll(page, "<span class=\"box[^\"]*\">([^<]*)</span>");
}

std::string tickedOf(const std::string& page) {
    const auto found = findAll(page, "<li class=\"ticked\"><span class=\"tick\">✕</span>([^<]*)<");
    REQUIRE(found.size() == 1);
    return found.front();
}

struct Expected {
    const char* outcome;
    const char* ticked;
};
constexpr std::array expected{Expected{"starts", "It starts, with volts to spare"},
                              Expected{"trips", "It tries, and gives up for low voltage"},
                              Expected{"stalls", "It tries, but its compressor does not turn"},
                              Expected{"fuse-opens", "A fuse or breaker opens"}};

void checkTick(const Inquiry& inquiry, const std::string& page) {
    const std::string ticked = tickedOf(page);
    const std::string_view outcome = nameOf(inquiry.examination.start.outcome);
    const auto wanted = std::ranges::find(expected, outcome, &Expected::outcome);
    if (outcome == "starts" && inquiry.examination.verdict.margin != Margin::Clear)
        CHECK(ticked == "It starts, but only just, or runs too slowly");
    else
        CHECK(ticked == (wanted == expected.end() ? "It does nothing at all" : wanted->ticked));
}

/// Against the rows of the ledger, each of them in one place.
void checkLedger(const Inquiry& inquiry,
                 const Network& network,
                 const std::vector<MeterPlace>& places,
                 const report::Readings& readings) {
    const Start& start = inquiry.examination.start;
    REQUIRE(start.ledger);
    std::size_t rows = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        double lost_v = 0;
        for (const Step& step : places[i].steps) {
            const auto& name = network.elements[static_cast<std::size_t>(step.element)].name;
            const auto row = std::ranges::find(start.ledger->rows, name, &LedgerRow::element);
            REQUIRE(row != start.ledger->rows.end());
            lost_v += row->volts;
            ++rows;
        }
        CHECK(readings.lost_v[i] == Approx(lost_v).margin(1e-6));
    }
    CHECK(rows == start.ledger->rows.size());
    CHECK(readings.rest_v == Approx(*start.source_v).margin(1e-4));
    CHECK(readings.fridge_v == Approx(*start.lowest_v).margin(1e-6));
}

/// What is printed: the boxes of all numbers, then the battery at rest less all of them.
void checkBoxes(const std::string& page, const report::Readings& readings) {
    const std::vector<std::string> values =
        findAll(page, "</span><span class=\"box\">([^<]*)</span><span class=\"unit\">V");
    REQUIRE(values.size() >= readings.lost_v.size() + 3);
    std::vector<double> numbers;
    for (std::size_t i = 0; i < readings.lost_v.size() + 3; ++i)
        numbers.push_back(std::stod(values[i]));
    const auto places = static_cast<std::ptrdiff_t>(readings.lost_v.size());
    for (std::size_t i = 0; i < readings.lost_v.size(); ++i)
        CHECK(numbers[i] == Approx(readings.lost_v[i]).margin(0.00051));
    const double sum = std::accumulate(numbers.begin(), numbers.begin() + places, 0.0);
    const double rest = numbers[readings.lost_v.size()];
    const double lost = numbers[readings.lost_v.size() + 1];
    const double fridge = numbers[readings.lost_v.size() + 2];
    CHECK(sum == Approx(lost).margin(0.0006 * static_cast<double>(places)));
    CHECK(rest - lost == Approx(fridge).margin(0.0016));
}

} // namespace

TEST_CASE("answers are those of the start, in every scene", "[handout]") {
    for (const std::string& name : drawn::sceneNames()) {
        if (runs::isSanitised() && name != "quay-07.toml" && name != "van-02.toml")
            continue;
        INFO(name);
        const Installation installation = drawn::scene(name);
        const Inquiry inquiry = inquire(installation);
        const Network network =
            network::build(installation::asSeen(installation), models().catalogues);
        const std::vector<MeterPlace> places = network::findPlaces(network);
        const report::Readings readings = report::readPlaces(inquiry.examination, network, places);
        const std::string page = answersOf(inquiry);
        checkTick(inquiry, page);
        CHECK_THAT(page, Contains("class=\"answers\"") && Contains("scene.toml"));
        if (inquiry.examination.start.ledger) {
            checkLedger(inquiry, network, places, readings);
            checkBoxes(page, readings);
            const std::vector<std::string> boxes = boxesOf(page);
            CHECK(std::ranges::count(boxes, "") == 1); // the class's guess
            // The only one whose battery is charged meanwhile.
            const bool is_lifted = page.find("Where the loss has a minus") != std::string::npos;
            CHECK(is_lifted == (name == "cabin-02.toml"));
        } else {
            CHECK(name == "van-04.toml"); // exchanged: nothing flows, and the meter shows it
            CHECK(report::findMost(readings).empty());
            CHECK(readings.fridge_v < -11);
            CHECK_THAT(page, Contains(">nowhere<"));
        }
    }
}

TEST_CASE("a trainer's sheet is the class's with its boxes filled", "[handout]") {
    const Inquiry inquiry = inquire(drawn::scene("quay-07.toml"));
    const std::string page = answersOf(inquiry);
    const std::string sheet = report::writeClassSheet(
        inquiry.examination.network.installation, models().catalogues, edition);
    for (const char* same : {"<b class=\"no\">([0-9]+)",
                             "<span class=\"what\">([^<]*)",
                             "<h2>(.*)</h2>",
                             "(Sheet [0-9a-f]{4})"}) {
        INFO(same);
        CHECK_FALSE(findAll(sheet, same).empty());
        CHECK(findAll(sheet, same) == findAll(page, same));
    }
    CHECK(boxesOf(page).size() == boxesOf(sheet).size());
    const std::size_t plan = sheet.find("<svg");
    CHECK_THAT(page, Contains(sheet.substr(plan, sheet.find("</svg>") - plan)));
    // The bad crimp, at the last number; and its cable by the sum.
    CHECK_THAT(page, Contains("By the meter: at number</span><span class=\"box wide\">11</span>"));
    CHECK_THAT(page, Contains("<small>ring of 210\u00a0mΩ at House battery minus</small>"));
    CHECK_THAT(page, Contains("9.1 m × 3.3 mΩ/m × 7.62 A = 0.23 V"));
    CHECK_THAT(page, Contains("gives up for low voltage") && Contains("First: Remake that joint"));
}

TEST_CASE("an open fuse takes the whole voltage on the answers", "[handout]") {
    Installation installation = drawn::scene("quay-01.toml");
    for (Part& part : installation.parts)
        if (auto* fuse = std::get_if<Fuse>(&part.body))
            fuse->blown = true;
    const Inquiry inquiry = inquire(installation);
    const Network network = network::build(installation::asSeen(installation), models().catalogues);
    const std::vector<MeterPlace> places = network::findPlaces(network);
    const report::Readings readings = report::readPlaces(inquiry.examination, network, places);
    const std::vector<int> most = report::findMost(readings);
    REQUIRE(most.size() == 1);
    CHECK(places[static_cast<std::size_t>(most.front() - 1)].owner == "main-fuse");
    CHECK(readings.lost() == Approx(12.49).margin(0.1));
    CHECK(std::abs(readings.fridge_v) < 0.1);
    CHECK(tickedOf(answersOf(inquiry)) == "It does nothing at all");
}

TEST_CASE("a hostile text stays a text on a trainer's sheet", "[handout][hostile]") {
    const Inquiry plain = inquire(drawn::scene("quay-07.toml"));
    const auto pageWith = [&](const std::string& text) {
        Inquiry inquiry = plain;
        Installation& installation = inquiry.examination.network.installation;
        installation.title = text;
        for (Part& part : installation.parts)
            part.name = text;
        return report::writeAnswerSheet(
            inquiry, models().catalogues, {.version = text, .scene = text, .changes = {text}});
    };
    const auto tags = [](std::string page) {
        // What a picture leaves out for want of room is no tag less.
        const std::size_t gap = page.find("<div class=\"gap\">");
        page.erase(gap, page.find("</svg>", gap) - gap);
        return std::ranges::count(page, '<');
    };
    const auto expected_tags = tags(pageWith("plain"));
    std::vector<std::string> texts = hostile::texts();
    texts.insert(texts.end(),
                 {"</title><script>x</script>", "{{{style}}} {{title}}", "' onload=x \" onload=x"});
    for (const std::string& text : texts) {
        INFO(text.substr(0, 100));
        const std::string page = pageWith(text);
        CHECK(tags(page) == expected_tags);
        CHECK_THAT(page, !Contains("<script") && !Contains("<!--"));
        CHECK(hostile::findControl(page).empty());
    }
}
