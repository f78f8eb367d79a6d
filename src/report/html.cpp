// SPDX-License-Identifier: MIT
// The report that travels: template, style and script of the program, filled with one inquiry.
#include "ebbline/html.h"

#include "film.h"
#include "policy.h"
#include "sections.h"
#include "words.h"

#include "ebbline/embedded.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <stdexcept>

namespace ebbline::report {
namespace {

void addEdition(const Edition& edition, Fields& page) {
    page.set("version", plain(edition.version));
    setText(page, "date", edition.date);
    setText(page, "scene", edition.scene);
    page.set("hash", text::contentHash(edition.scene_text));
    if (!edition.changes.empty()) {
        page.set("has_changes", true);
        page.set("changes", listOf(edition.changes));
    }
}

Fields stillsOf(const Stills& stills) {
    Fields fields;
    fields.set("plan", stills[0]);
    fields.set("gap", stills[1]);
    fields.set("time", stills[2]);
    return fields;
}

/// Style, script, and the policy that lets these two in and nothing else.
void addOwnFiles(Fields& page) {
    const embedded::File& style = embedded::findFile("report.css");
    const embedded::File& script = embedded::findFile("report.js");
    page.set("style", std::string(style.text));
    page.set("style_hash", policyHash(style));
    page.set("script", std::string(script.text));
    page.set("script_hash", policyHash(script));
}

} // namespace

std::string writeHtml(const Inquiry& inquiry, const Edition& edition) {
    const Showing showing = makeShowing(inquiry);
    Fields page;
    page.set("language", reader().language);
    page.set("say", kainjow::mustache::lambda([](const std::string& text) {
                 return words(text.c_str());
             }));
    addEdition(edition, page);
    addVerdict(inquiry, page);
    addLosses(inquiry, page);
    addRules(inquiry, page);
    addRemedies(inquiry, page);
    addParts(inquiry.examination.network.installation, page);
    addAssumptions(inquiry, page);
    page.set("cautions", listOf(cautionWords()));
    addOwnFiles(page);
    page.set("stills", stillsOf(showing.paper));
    page.set("last", std::to_string(showing.words.size() - 1));
    page.set("worst", std::to_string(showing.instants.worst));
    page.set("worst_words", showing.words[showing.instants.worst]);
    page.set("data", writeJson(showing));
    kainjow::mustache::mustache sheet{std::string(embedded::find("report.html"))};
    if (!sheet.is_valid())
        throw std::logic_error("report.html: " + sheet.error_message());
    return sheet.render(page);
}

} // namespace ebbline::report
