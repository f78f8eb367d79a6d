// SPDX-License-Identifier: MIT
// Joints in the text: a kind in quotes, a table of any form, one for all cores or one for each.
#include "edit_state.h"

#include <algorithm>
#include <array>
#include <optional>

namespace ebbline::file {
namespace {

constexpr std::array<std::string_view, 9> joint_keys{"kind",
                                                     "condition",
                                                     "resistance_mohm",
                                                     "film_mohm",
                                                     "film_v",
                                                     "opens_per_min",
                                                     "opens_ms",
                                                     "opens_seed",
                                                     "connected"};

std::optional<std::string> tokenOf(const Joint& joint, std::string_view key) {
    if (key == "kind")
        return quotedText(joint.kind);
    if (key == "condition")
        return quotedText(joint.condition);
    if (key == "connected")
        return joint.connected ? "true" : "false";
    for (const installation::JointNumber& number : installation::jointNumbers())
        if (const auto value = number.of(joint); value && number.name == key)
            return token(*value);
    return std::nullopt;
}

/// A joint of several keys: those change that have to, and the cleared one goes.
void fixTable(Pen& pen,
              const Node& node,
              const Joint& was,
              const Joint& wanted,
              std::string_view cleared_key) {
    std::vector<std::string_view> gone;
    bool is_said = false;
    for (const std::string_view key : joint_keys) {
        const auto token = tokenOf(wanted, key);
        const bool is_same = token == tokenOf(was, key);
        if (node.find(key) != nullptr && (key == cleared_key || (!is_same && !token)))
            gone.push_back(key);
        else if (!is_same && token && key != cleared_key) {
            pen.set(node, key, *token);
            is_said = true;
        }
    }
    if (!is_said && !gone.empty() && gone.size() == node.fields.size() &&
        node.form == Node::Form::Inline) {
        pen.replace(node, quotedText(wanted.kind)); // rather than empty braces
        return;
    }
    for (const std::string_view key : gone)
        pen.erase(node, key);
}

void fixOne(Pen& pen,
            const Node& node,
            const Joint& was,
            const Joint& wanted,
            std::string_view cleared_key) {
    if (node.isTable())
        fixTable(pen, node, was, wanted, cleared_key);
    else if (was != wanted)
        pen.replace(node, token(wanted));
}

/// The key that is cleared of a joint of that name; empty for none.
std::string_view clearedOf(const JointsFix& joints, std::size_t i) {
    for (const std::string_view key : joint_keys)
        if (joints.cleared.hits(joints.names[i], "joints", key))
            return key;
    return {};
}

bool isAllCleared(const JointsFix& joints) {
    for (std::size_t i = 0; i < joints.names.size(); ++i)
        if (clearedOf(joints, i).empty())
            return false;
    return true;
}

bool isAll(const std::vector<Joint>& joints, const Joint& one) {
    return std::ranges::all_of(joints, [&](const Joint& joint) { return joint == one; });
}

/// A table as one value, with whatever else it holds.
std::string asToken(const Tree& tree, const Node& node) {
    if (node.form == Node::Form::Table) {
        Lines lines;
        for (const Field& field : node.fields)
            lines.emplace_back(tree.source(field.key), asToken(tree, *field.node));
        return inlineOf(lines);
    }
    if (node.form != Node::Form::Blocks)
        return std::string(tree.source(node.span));
    std::vector<std::string> tokens;
    tokens.reserve(node.elements.size());
    for (const Node* element : node.elements)
        tokens.push_back(asToken(tree, *element));
    return listed(tokens);
}

/// One joint stood for all, and now they differ; or their number is another.
void writeAnew(Pen& pen, const Tree& tree, const Node& table, const JointsFix& joints) {
    const Node& node = *table.find(joints.key)->node;
    std::vector<std::string> tokens = tokensOf(joints.wanted);
    for (std::size_t i = 0; i < std::min(joints.was.size(), tokens.size()); ++i)
        if (joints.was[i] == joints.wanted[i])
            tokens[i] = asToken(tree, node.isList() ? *node.elements[i] : node);
    if (isAll(joints.wanted, joints.wanted.front()))
        pen.set(table, joints.key, tokens.front());
    else
        pen.set(table, joints.key, listed(tokens));
}

} // namespace

void fixJoints(Pen& pen, const Tree& tree, const Node& table, const JointsFix& joints) {
    const Field* field = table.find(joints.key);
    if (field == nullptr) {
        fixEach(pen,
                tree,
                table,
                {.key = joints.key,
                 .was = tokensOf(joints.was),
                 .wanted = tokensOf(joints.wanted),
                 .otherwise = token(joints.otherwise)});
        return;
    }
    const Node& node = *field->node;
    const bool is_all_cleared = isAllCleared(joints);
    const bool is_alike = isAll(joints.wanted, joints.wanted.front());
    if (is_all_cleared && node.form == Node::Form::Leaf && isAll(joints.wanted, joints.otherwise))
        pen.erase(table, joints.key);
    else if (joints.was.size() == joints.wanted.size() && node.isList())
        for (std::size_t i = 0; i < joints.wanted.size(); ++i)
            fixOne(pen, *node.elements[i], joints.was[i], joints.wanted[i], clearedOf(joints, i));
    else if (is_alike && !node.isList())
        fixOne(pen,
               node,
               joints.was.front(),
               joints.wanted.front(),
               is_all_cleared ? clearedOf(joints, 0) : std::string_view{});
    else if (joints.was != joints.wanted)
        writeAnew(pen, tree, table, joints);
}

} // namespace ebbline::file
