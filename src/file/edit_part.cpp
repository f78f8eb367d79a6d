// SPDX-License-Identifier: MIT
// Parts in the text, brought to what they shall be key by key.
#include "edit_state.h"

#include <algorithm>

namespace ebbline::file {
namespace {

using installation::Key;

bool isBattery(const Part& part) {
    return std::holds_alternative<Battery>(part.body);
}

void fixKey(Pen& pen, const Node& node, const PartFix& part, const Key& key, const Part& bare) {
    const auto wanted = installation::get(part.wanted, key);
    const bool is_stated = node.find(key.name) != nullptr;
    const auto now = is_stated ? installation::get(part.was, key) : installation::get(bare, key);
    const char* group = isBattery(part.was) ? "batteries" : "";
    if (part.cleared.hits(part.was.id, group, key.name) || (now != wanted && !wanted))
        pen.erase(node, key.name);
    else if (now != wanted)
        pen.set(node, key.name, token(*wanted));
}

/// What one key says of every way of a panel.
std::vector<std::string> waysOf(const Panel& panel, std::string_view key) {
    std::vector<std::string> tokens;
    tokens.reserve(panel.ways.size());
    for (const PanelWay& way : panel.ways)
        tokens.push_back(token(key == "closed" ? Value(way.closed) : Value(way.resistance_mohm)));
    return tokens;
}

struct Owner {
    Pen& pen;
    const Tree& tree;
    const Node& node;
    const PartFix& part;
};

void fixOwn(const Owner& owner, const Panel& was, const Panel& wanted) {
    const Panel bare{.ways = {PanelWay{}}};
    for (const char* key : {"resistance_mohm", "closed"})
        if (owner.part.cleared.hits(owner.part.was.id, "", key))
            owner.pen.erase(owner.node, key);
        else
            fixEach(owner.pen,
                    owner.tree,
                    owner.node,
                    {.key = key,
                     .was = waysOf(was, key),
                     .wanted = waysOf(wanted, key),
                     .otherwise = waysOf(bare, key).front()});
}

void fixOwn(const Owner& owner, const Stud& was, const Stud& wanted) {
    fixList(
        owner.pen, owner.tree, owner.node, "stack", tokensOf(was.stack), tokensOf(wanted.stack));
}

void fixOwn(const Owner& owner, const Bond& was, const Bond& wanted) {
    if (was.to != wanted.to)
        owner.pen.set(owner.node, "to", quotedText(wanted.to));
}

void fixOwn(const Owner& owner, const Meter& was, const Meter& wanted) {
    if (was.plus != wanted.plus)
        owner.pen.set(owner.node, "plus", token(wanted.plus));
    if (was.minus != wanted.minus)
        owner.pen.set(owner.node, "minus", token(wanted.minus));
}

template <class Other>
void fixOwn(const Owner&, const Other&, const Other&) {}

void fixPartJoints(const Owner& owner, Part was, Part wanted, Part bare) {
    const auto joints_were = installation::jointsOf(was);
    const auto joints = installation::jointsOf(wanted);
    const auto bare_joints = installation::jointsOf(bare);
    for (std::size_t i = 0; i < joints.size(); ++i)
        fixJoints(owner.pen,
                  owner.tree,
                  owner.node,
                  {.key = "joint_" + joints[i].name.substr(was.id.size() + 1),
                   .was = {*joints_were[i].joint},
                   .wanted = {*joints[i].joint},
                   .otherwise = *bare_joints[i].joint,
                   .names = {joints[i].name},
                   .cleared = owner.part.cleared});
}

} // namespace

void fix(Pen& pen, const Tree& tree, const Node& node, const PartFix& part) {
    const Part bare = installation::bareOf(part.wanted, part.catalogues);
    fixText(pen, node, "name", part.was.name, part.wanted.name);
    fixText(pen, node, "note", part.was.note, part.wanted.note);
    fixText(pen, node, "model", part.was.model, part.wanted.model);
    for (const Key& key : installation::keys())
        if (key.kind == installation::kindOf(part.was))
            fixKey(pen, node, part, key, bare);
    const Owner owner{pen, tree, node, part};
    fixPartJoints(owner, part.was, part.wanted, bare);
    std::visit(
        [&](const auto& was) {
            using Kind = std::decay_t<decltype(was)>;
            fixOwn(owner, was, std::get<Kind>(part.wanted.body));
        },
        part.was.body);
    if (part.was.at_m != part.wanted.at_m && part.wanted.at_m)
        pen.set(node, "at_m", token(*part.wanted.at_m));
    else if (part.was.at_m != part.wanted.at_m)
        pen.erase(node, "at_m");
}

} // namespace ebbline::file
