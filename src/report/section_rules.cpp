// SPDX-License-Identifier: MIT
// Rules and remedies of the page.
#include "remedies.h"
#include "sections.h"
#include "words.h"

#include "ebbline/telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::report {
namespace {

std::string className(RuleState state) {
    return std::string(nameOf(state));
}

/// The name behind an id, where there is one that says more.
void addThing(const Installation& installation, const std::string& id, Fields& row) {
    if (id.empty())
        return;
    Fields thing;
    const std::string name = drawing::nameOfThing(installation, id);
    thing.set("id", plain(id));
    if (name != id)
        thing.set("name", plain(name));
    row.set("thing", thing);
}

Fields rowOf(const Installation& installation, const RuleFinding& finding) {
    Fields row;
    row.set("state", stateWords(finding));
    row.set("class", className(finding.state));
    row.set("rule", term(finding.rule));
    setText(row, "figures", text::tidyUnits(figureWords(finding)));
    row.set("reason", plain(text::tidyUnits(finding.reason)));
    setText(row, "source", text::tidyUnits(finding.source));
    if (finding.unchecked)
        setText(row, "unchecked", words(unchecked_words));
    addThing(installation, finding.on, row);
    return row;
}

std::string counted(const Inquiry& inquiry, RuleState state) {
    return std::to_string(std::ranges::count(inquiry.rules, state, &RuleFinding::state));
}

/// In one word what a remedy does: only one that starts clear is a cure.
std::pair<std::string, std::string> resultOf(const Remedy& remedy) {
    if (remedy.cure)
        return {words("starts clear"), "clear"};
    if (remedy.below && remedy.below->outcome == Outcome::Starts)
        return {words("only just"), "just"};
    return {words("not enough"), "no"};
}

Fields rowsOf(const Inquiry& inquiry, bool repairs) {
    Fields rows = Fields::type::list;
    for (const Remedy& remedy : inquiry.remedies) {
        const std::string said = remedyWords(remedy);
        if (isRepair(remedy.kind) != repairs || said.empty())
            continue;
        Fields row;
        const auto [result, name] = resultOf(remedy);
        row.set("result", result);
        row.set("class", name);
        row.set("words", plain(said));
        addThing(inquiry.examination.network.installation, remedy.on, row);
        rows.push_back(row);
    }
    return rows;
}

} // namespace

void addRules(const Inquiry& inquiry, Fields& page) {
    Fields rows = Fields::type::list;
    for (const RuleFinding* finding : sortByWeight(inquiry.rules))
        rows.push_back(rowOf(inquiry.examination.network.installation, *finding));
    page.set("rules", rows);
    page.set("rules_words", words(rules_words));
    page.set("rules_count",
             words("{} broken, {} not judged, {} kept",
                   counted(inquiry, RuleState::Broken),
                   counted(inquiry, RuleState::NotJudged),
                   counted(inquiry, RuleState::Kept)));
}

void addRemedies(const Inquiry& inquiry, Fields& page) {
    Fields groups = Fields::type::list;
    for (const bool repairs : {true, false}) {
        const Fields rows = rowsOf(inquiry, repairs);
        if (rows.list_value().empty())
            continue;
        Fields group;
        group.set("group", repairs ? words("Repair: back to what was meant") : words("Redesign"));
        group.set("rows", rows);
        groups.push_back(group);
    }
    if (groups.list_value().empty())
        page.set("no_remedies", true);
    page.set("remedies", groups);
    setText(page, "redesign", redesignWords(inquiry.remedies));
}

} // namespace ebbline::report
