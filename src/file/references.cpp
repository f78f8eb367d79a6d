// SPDX-License-Identifier: MIT
// Ids, and whether everything that is named exists.
#include "reading.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <regex>
#include <set>

namespace ebbline::file {
namespace {

constexpr std::array reserved{"joints", "runs", "batteries", "surroundings", "plan"};

bool isReserved(const std::string& id) {
    return std::ranges::find(reserved, id) != reserved.end() || installation::makeBody(id);
}

bool isWellFormed(const std::string& id) {
    static const std::regex form("[a-z][a-z0-9-]{0,39}");
    return id.size() <= 40 && std::regex_match(id, form);
}

/// Checks one run end; `parts` by id.
void checkEnd(Reading& reading,
              const std::map<std::string, const Part*>& parts,
              const Mention& end) {
    const std::string& id = end.terminal.part;
    const auto part = parts.find(id);
    if (part == parts.end()) {
        if (reading.installation.findRun(id) != nullptr)
            reading.problems.add(end.where,
                                 words("{} is a run, expected a terminal of a part", inQuotes(id)));
        else if (!reading.unread.contains(id))
            reading.problems.addUnknown(end.where, phrase("unknown part {}"), id, namesOf(parts));
        return;
    }
    const auto terminals = installation::terminalsOf(*part->second);
    if (std::ranges::find(terminals, end.terminal.terminal) == terminals.end())
        reading.problems.addMeant(
            end.where,
            words("{} has no terminal {}", inQuotes(id), inQuotes(end.terminal.terminal)),
            end.terminal.terminal,
            terminals);
}

/// Checks the lugs of one stud against the run ends that are bolted to it.
void checkStack(Reading& reading,
                const std::string& stud,
                const std::vector<Mention>& stack,
                const std::set<std::string>& ends_here) {
    const std::vector<std::string> known(ends_here.begin(), ends_here.end());
    std::set<std::string> seen;
    bool is_sure = true;
    for (const Mention& lug : stack) {
        const std::string name = lug.terminal.text();
        if (!seen.insert(name).second)
            reading.problems.add(lug.where, words("{} lies twice in the stack", inQuotes(name)));
        if (reading.unread.contains(lug.terminal.part))
            is_sure = false;
        else if (!ends_here.contains(name)) {
            is_sure = false;
            reading.problems.addMeant(lug.where,
                                      words("{} does not end at '{}.post'", inQuotes(name), stud),
                                      name,
                                      known);
        }
    }
    if (!is_sure || stack.empty())
        return;
    for (const std::string& name : ends_here)
        if (!seen.contains(name))
            reading.problems.add(
                stack.front().where,
                words("{} ends at '{}.post' but is not in its stack", inQuotes(name), stud));
}

void checkBond(Reading& reading, const std::string& chassis, const toml::source_region& where) {
    if (reading.unread.contains(chassis))
        return;
    const Part* part = reading.installation.findPart(chassis);
    if (part != nullptr && std::holds_alternative<Chassis>(part->body))
        return;
    std::vector<std::string> known;
    for (const Part& one : reading.installation.parts)
        if (std::holds_alternative<Chassis>(one.body))
            known.push_back(one.id);
    reading.problems.addUnknown(where, phrase("unknown chassis {}"), chassis, known);
}

} // namespace

std::string
noSize(const std::string& conductor, double area_mm2, const std::map<double, double>& sizes) {
    std::string known;
    for (const auto& [known_mm2, mohm_per_m] : sizes)
        known += (known.empty() ? " " : ", ") + text::number(known_mm2);
    return words("conductor '{}' has no size of {} mm2, expected one of{}",
                 conductor,
                 text::number(area_mm2),
                 known);
}

std::optional<std::string> takeId(Reading& reading, Fields& fields) {
    auto id = fields.requireText("id");
    if (!id)
        return std::nullopt;
    const toml::source_region& where = fields.take("id")->source();
    const auto [first, is_new] = reading.ids.emplace(*id, where);
    if (!is_new) {
        reading.problems.add(
            where,
            words("the id {} is taken, first at line {}", inQuotes(*id), first->second.begin.line));
        return std::nullopt;
    }
    if (!isWellFormed(*id))
        reading.problems.add(
            where,
            words("{} is no id, expected a small letter, then up to 39 of a-z 0-9 -",
                  inQuotes(*id)));
    else if (isReserved(*id))
        reading.problems.add(
            where, words("{} is a word of the format and cannot be an id", inQuotes(*id)));
    return id;
}

std::optional<Mention> mentionOf(Reading& reading, const toml::node& node) {
    const std::string text = node.value<std::string>().value_or("");
    const std::size_t dot = text.find('.');
    if (!node.is_string() || dot == std::string::npos) {
        reading.problems.add(node.source(), words("a terminal wants \"part.terminal\""));
        return std::nullopt;
    }
    return Mention{{text.substr(0, dot), text.substr(dot + 1)}, node.source()};
}

void checkReferences(Reading& reading) {
    std::map<std::string, const Part*> parts;
    for (const Part& part : reading.installation.parts)
        parts[part.id] = &part;
    for (const Mention& end : reading.ends)
        checkEnd(reading, parts, end);
    for (const auto& [chassis, where] : reading.bonds)
        checkBond(reading, chassis, where);
    std::map<std::string, std::set<std::string>> ends_at; // part -> run ends
    for (const Run& run : reading.installation.runs)
        for (std::size_t i = 0; i < run.cores.size(); ++i) {
            ends_at[run.cores[i].from.part].insert(run.endName(i, "from"));
            ends_at[run.cores[i].to.part].insert(run.endName(i, "to"));
        }
    std::set<std::string> ends;
    for (const auto& [part, names] : ends_at)
        ends.insert(names.begin(), names.end());
    for (const Mention& lead : reading.meter_leads)
        if (!ends.contains(lead.terminal.text()) && !reading.unread.contains(lead.terminal.part))
            checkEnd(reading, parts, lead);
    for (const auto& [stud, stack] : reading.stacks)
        checkStack(reading, stud, stack, ends_at[stud]);
}

} // namespace ebbline::file
