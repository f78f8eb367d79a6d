// SPDX-License-Identifier: MIT
// Parts and runs as the lines of their blocks.
#include "write.h"

#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::file {
namespace {

using installation::Key;

void addText(Lines& lines, const char* key, const std::string& text) {
    if (!text.empty())
        lines.emplace_back(key, quotedText(text));
}

/// One value for each of several things: one for all where they are the same.
void addEach(Lines& lines, std::string_view key, const std::vector<std::string>& tokens) {
    const bool is_same =
        std::ranges::all_of(tokens, [&](const std::string& one) { return one == tokens[0]; });
    lines.emplace_back(key, is_same ? tokens[0] : listed(tokens));
}

/// The same, unless all are as they would be without it.
void addEachUnless(Lines& lines,
                   std::string_view key,
                   const std::vector<std::string>& tokens,
                   const std::string& otherwise) {
    if (std::ranges::any_of(tokens, [&](const std::string& one) { return one != otherwise; }))
        addEach(lines, key, tokens);
}

/// What one member of every core says, as tokens.
template <class Member>
std::vector<std::string> eachOf(const Run& run, Member Core::* member) {
    std::vector<std::string> tokens;
    tokens.reserve(run.cores.size());
    for (const Core& core : run.cores)
        tokens.push_back(token(core.*member));
    return tokens;
}

void addEnds(Lines& lines, const char* key, const Run& run, Terminal Core::* member) {
    const auto tokens = eachOf(run, member);
    lines.emplace_back(key, tokens.size() == 1 ? tokens[0] : listed(tokens));
}

void checkSizes(const Run& run) {
    for (const Core& core : run.cores)
        if (core.size.scale != run.cores[0].size.scale)
            throw SceneError({Problem{
                .message = words("the cores of {} state their sizes in different ways, expected "
                                 "one of area_mm2, awg, sae for all",
                                 text::inQuotes(run.id))}});
}

void addOwn(Lines& lines, const Panel& panel) {
    std::vector<std::string> closed;
    std::vector<std::string> mohm;
    for (const PanelWay& way : panel.ways) {
        closed.push_back(token(Value(way.closed)));
        mohm.push_back(token(way.resistance_mohm));
    }
    addEachUnless(lines, "resistance_mohm", mohm, token(PanelWay{}.resistance_mohm));
    addEachUnless(lines, "closed", closed, token(Value(PanelWay{}.closed)));
}

void addOwn(Lines& lines, const Stud& stud) {
    if (!stud.stack.empty())
        lines.emplace_back("stack", listed(tokensOf(stud.stack)));
}

void addOwn(Lines& lines, const Bond& bond) {
    lines.emplace_back("to", quotedText(bond.to));
}

void addOwn(Lines& lines, const Meter& meter) {
    lines.emplace_back("plus", token(meter.plus));
    lines.emplace_back("minus", token(meter.minus));
}

template <class Other>
void addOwn(Lines&, const Other&) {}

} // namespace

Lines linesOf(const Part& part, const Catalogues& catalogues) {
    Lines lines{{"id", quotedText(part.id)}};
    addText(lines, "name", part.name);
    addText(lines, "note", part.note);
    lines.emplace_back("kind", quotedText(installation::kindOf(part)));
    addText(lines, "model", part.model);
    Part bare = installation::bareOf(part, catalogues);
    for (const Key& key : installation::keys())
        if (key.kind == installation::kindOf(part)) {
            const auto value = installation::get(part, key);
            if (value && value != installation::get(bare, key))
                lines.emplace_back(key.name, token(*value));
        }
    Part copy = part; // joints are handed out to be changed
    const auto joints = installation::jointsOf(copy);
    const auto bare_joints = installation::jointsOf(bare);
    for (std::size_t i = 0; i < joints.size(); ++i)
        if (*joints[i].joint != *bare_joints[i].joint)
            lines.emplace_back("joint_" + joints[i].name.substr(part.id.size() + 1),
                               token(*joints[i].joint));
    std::visit([&](const auto& body) { addOwn(lines, body); }, part.body);
    if (part.at_m)
        lines.emplace_back("at_m", token(*part.at_m));
    return lines;
}

Lines linesOf(const Run& run) {
    checkSizes(run);
    Lines lines{{"id", quotedText(run.id)}};
    addText(lines, "name", run.name);
    addText(lines, "note", run.note);
    if (run.cores.empty())
        return lines; // the reader will say what is missing
    addEnds(lines, "from", run, &Core::from);
    addEnds(lines, "to", run, &Core::to);
    addEach(lines, keyOf(run.cores[0].size.scale), eachOf(run, &Core::size));
    std::vector<std::string> conductors;
    conductors.reserve(run.cores.size());
    for (const Core& core : run.cores)
        conductors.push_back(quotedText(core.conductor));
    addEachUnless(lines, "conductor", conductors, quotedText(Core{}.conductor));
    if (run.length_m)
        lines.emplace_back("length_m", token(*run.length_m));
    if (!run.route_m.empty())
        lines.emplace_back("route_m", listed(tokensOf(run.route_m)));
    for (const installation::RunNumber& number : installation::runNumbers())
        if (const auto value = number.of(run);
            value && value != number.of(Run{}) && number.name != "length_m")
            lines.emplace_back(number.name, token(*value));
    addEachUnless(lines, "joint_from", eachOf(run, &Core::joint_from), token(Joint{}));
    addEachUnless(lines, "joint_to", eachOf(run, &Core::joint_to), token(Joint{}));
    return lines;
}

} // namespace ebbline::file
