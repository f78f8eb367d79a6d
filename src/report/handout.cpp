// SPDX-License-Identifier: MIT
// A sheet for a class on paper, and the same sheet filled in for its trainer.
#include "ebbline/handout.h"

#include "film.h"
#include "handout_rows.h"
#include "policy.h"
#include "words.h"

#include "ebbline/embedded.h"
#include "ebbline/numbered_plan.h"
#include "ebbline/seen.h"
#include "ebbline/telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace ebbline::report {
namespace {

/// What the class may tick, in the order of the sheet.
enum class Tick { Clear, OnlyJust, GivesUp, Stalls, FuseOpens, Nothing };
constexpr std::array tick_words{phrase("It starts, with volts to spare"),
                                phrase("It starts, but only just, or runs too slowly"),
                                phrase("It tries, and gives up for low voltage"),
                                phrase("It tries, but its compressor does not turn"),
                                phrase("A fuse or breaker opens"),
                                phrase("It does nothing at all")};

Tick tickOf(const Examination& examination) {
    switch (examination.start.outcome) {
    case Outcome::Starts:
        return examination.verdict.margin == Margin::Clear && !isSlow(examination) ? Tick::Clear
                                                                                   : Tick::OnlyJust;
    case Outcome::Trips:
        return Tick::GivesUp;
    case Outcome::Stalls:
        return Tick::Stalls;
    case Outcome::FuseOpens:
        return Tick::FuseOpens;
    default:
        return Tick::Nothing;
    }
}

void addTicks(std::optional<Tick> ticked, Fields& page) {
    Fields ticks = Fields::type::list;
    for (std::size_t i = 0; i < tick_words.size(); ++i) {
        Fields tick;
        tick.set("words", words(tick_words[i]));
        tick.set("ticked", Fields(ticked && static_cast<std::size_t>(*ticked) == i));
        ticks.push_back(tick);
    }
    page.set("ticks", ticks);
}

NumberedLoop numberLoop(const Installation& installation, const Catalogues& catalogues) {
    NumberedLoop loop{network::build(installation::asSeen(installation), catalogues), {}};
    loop.places = network::findPlaces(loop.network);
    return loop;
}

/// As wide for its height as the place that the sheet leaves for it.
View planView(SheetSize paper) {
    return paper == SheetSize::A4 ? View{820, 344} : View{760, 360};
}

void addStyles(SheetSize paper, Fields& page) {
    const embedded::File& style = embedded::findFile("handout.css");
    const embedded::File& size =
        embedded::findFile(paper == SheetSize::A4 ? "handout-a4.css" : "handout-letter.css");
    page.set("style", std::string(style.text));
    page.set("style_hash", policyHash(style));
    page.set("paper", std::string(size.text));
    page.set("paper_hash", policyHash(size));
}

/// What both sheets have in common.
Fields makePage(const NumberedLoop& loop, const HandoutEdition& edition) {
    Fields page;
    page.set("language", reader().language);
    page.set("say", kainjow::mustache::lambda([](const std::string& text) {
                 return words(text.c_str());
             }));
    addStyles(edition.paper, page);
    const std::string plan = drawing::writeSvg(
        drawing::numberedPlan(loop.network, loop.places, planView(edition.paper)));
    page.set("plan", plan);
    // By which class and trainer know that they hold the same sheet.
    page.set("sheet", text::contentHash(plan).substr(0, 4));
    page.set("version", plain(edition.version));
    return page;
}

std::string render(const Fields& page) {
    kainjow::mustache::mustache sheet{std::string(embedded::find("handout.html"))};
    if (!sheet.is_valid())
        throw std::logic_error("handout.html: " + sheet.error_message());
    return sheet.render(page);
}

/// What is to be done first; of a fridge that starts, what is worth a look all the same.
std::string firstWords(const Inquiry& inquiry, const std::string& action) {
    constexpr double worth_a_look_v = 0.1;
    if (!action.empty())
        return words("First: {}", action);
    const auto worst = std::ranges::max_element(inquiry.losses, {}, &Loss::avoidable_v);
    if (worst == inquiry.losses.end() || worst->avoidable_v < worth_a_look_v)
        return words("Nothing needs to be changed for it to start.");
    return words("It starts as it is. Worth a look all the same: {}, {} V lost needlessly.",
                 drawing::nameOfThing(inquiry.examination.network.installation, worst->element),
                 text::fixed(worst->avoidable_v, 2));
}

/// The cause, what to do first, and the picture of it.
void addCause(const Inquiry& inquiry, Fields& page) {
    const Examination& examination = inquiry.examination;
    const Moment moment{inquiry, drawing::tellingMoment(examination.start)};
    const Wording wording = drawing::wordingOf(moment);
    page.set("cause", plain(wording.cause));
    page.set("first", plain(firstWords(inquiry, wording.action)));
    page.set("gap", drawing::writeSvg(drawing::gapChart(moment, {400, 230})));
}

} // namespace

std::string writeClassSheet(const Installation& installation,
                            const Catalogues& catalogues,
                            const HandoutEdition& edition) {
    const NumberedLoop loop = numberLoop(installation, catalogues);
    Fields page = makePage(loop, edition);
    addTicks(std::nullopt, page);
    addPlaces(loop, catalogues, page);
    return render(page);
}

std::string writeAnswerSheet(const Inquiry& whole,
                             const Catalogues& catalogues,
                             const HandoutEdition& edition) {
    const Inquiry inquiry = withShortNames(whole);
    const Installation& installation = inquiry.examination.network.installation;
    const NumberedLoop loop = numberLoop(installation, catalogues);
    Fields page = makePage(loop, edition);
    page.set("answers", true);
    page.set("title", plain(installation.title));
    page.set("changes", listOf(edition.changes));
    setText(page, "scene", edition.scene);
    addTicks(tickOf(inquiry.examination), page);
    addReadings(inquiry, loop, catalogues, page);
    addCause(inquiry, page);
    return render(page);
}

} // namespace ebbline::report
