// SPDX-License-Identifier: MIT
// The head of the page: what happened, what it needs, and what to do first.
#include "sections.h"
#include "words.h"

#include "ebbline/telling.h"
#include "ebbline/text.h"

namespace ebbline::report {
namespace {

using text::fixed;

Fields eventRows(const Start& start) {
    Fields rows = Fields::type::list;
    for (const StartEvent& event : start.events) {
        Fields row;
        row.set("at", fixed(event.at_s, 2) + " s");
        row.set("what", term(nameOf(event.what)));
        rows.push_back(row);
    }
    return rows;
}

Fields meterRows(const Start& start) {
    Fields rows = Fields::type::list;
    for (const MeterReading& reading : start.meters) {
        Fields row;
        row.set("meter", plain(reading.meter));
        row.set("shows", meterWords(reading));
        rows.push_back(row);
    }
    return rows;
}

Fields factRows(const Inquiry& inquiry) {
    Fields rows = Fields::type::list;
    std::vector<Fact> facts = findFacts(inquiry.examination);
    facts.push_back({words("Its lamp"), lampWords(inquiry)});
    for (const Fact& fact : facts) {
        Fields row;
        row.set("label", fact.label);
        row.set("words", plain(fact.words));
        rows.push_back(row);
    }
    return rows;
}

} // namespace

Fields plain(const std::string& text) {
    return text::escapeControls(text);
}

void setText(Fields& fields, const std::string& name, const std::string& text) {
    if (!text.empty())
        fields.set(name, plain(text));
}

Fields listOf(const std::vector<std::string>& texts) {
    Fields list = Fields::type::list;
    for (const std::string& text : texts)
        list.push_back(plain(text));
    return list;
}

void addVerdict(const Inquiry& inquiry, Fields& page) {
    const Examination& examination = inquiry.examination;
    const Moment moment{inquiry, drawing::tellingMoment(examination.start)};
    const Wording wording = drawing::wordingOf(moment);
    page.set("title", plain(examination.network.installation.title));
    setText(page, "scene_note", examination.network.installation.note);
    page.set("heading", plain(wording.heading));
    page.set("good", Fields(examination.verdict.margin == Margin::Clear));
    page.set("outcome", outcomeWords(examination));
    page.set("reasons", listOf(wording.reasons));
    setText(page, "action", wording.action);
    if (!wording.action.empty())
        setText(page, "care_first", careWords());
    page.set("facts", factRows(inquiry));
    page.set("events", eventRows(examination.start));
    page.set("horizon", fixed(examination.start.horizon_s, 1));
    if (!examination.start.meters.empty()) {
        page.set("has_meters", true);
        page.set("meters", meterRows(examination.start));
    }
}

} // namespace ebbline::report
