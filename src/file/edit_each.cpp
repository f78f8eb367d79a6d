// SPDX-License-Identifier: MIT
// Keys that hold a text, a list, or one value for each of several things.
#include "edit_state.h"

#include <algorithm>

namespace ebbline::file {
namespace {

bool isAll(const std::vector<std::string>& tokens, const std::string& one) {
    return std::ranges::all_of(tokens, [&](const std::string& token) { return token == one; });
}

std::string oneOrList(const std::vector<std::string>& tokens) {
    return isAll(tokens, tokens.front()) ? tokens.front() : listed(tokens);
}

/// One value stood for all; what stays the same stays as it was written.
void fixOneForAll(Pen& pen, const Tree& tree, const Node& node, const Each& each) {
    if (isAll(each.wanted, each.was.front()))
        return;
    std::vector<std::string> tokens = each.wanted;
    for (std::size_t i = 0; i < std::min(each.was.size(), tokens.size()); ++i)
        if (each.was[i] == each.wanted[i])
            tokens[i] = tree.source(node.span);
    pen.replace(node, oneOrList(tokens));
}

/// A list from which elements only go, or to which they only come behind the last.
bool fixBySteps(Pen& pen, const Node& node, const Each& each) {
    std::vector<std::size_t> gone;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < each.was.size(); ++i)
        if (kept < each.wanted.size() && each.was[i] == each.wanted[kept])
            ++kept;
        else
            gone.push_back(i);
    if (!gone.empty() && kept < each.wanted.size())
        return false;
    for (const std::size_t i : gone)
        pen.eraseElement(node, i);
    for (std::size_t i = kept; i < each.wanted.size(); ++i)
        pen.append(node, each.wanted[i]);
    return true;
}

} // namespace

void fixEach(Pen& pen, const Tree& tree, const Node& table, const Each& each) {
    if (each.was == each.wanted)
        return;
    const Field* field = table.find(each.key);
    if (each.wanted.empty())
        pen.erase(table, each.key);
    else if (field == nullptr && !isAll(each.wanted, each.otherwise))
        pen.set(table, each.key, oneOrList(each.wanted));
    else if (field == nullptr)
        return;
    else if (!field->node->isList())
        fixOneForAll(pen, tree, *field->node, each);
    else if (each.was.size() != each.wanted.size()) {
        if (!fixBySteps(pen, *field->node, each))
            pen.replace(*field->node, listed(each.wanted));
    } else
        for (std::size_t i = 0; i < each.wanted.size(); ++i)
            if (each.was[i] != each.wanted[i])
                pen.replace(*field->node->elements[i], each.wanted[i]);
}

void fixList(Pen& pen,
             const Tree& tree,
             const Node& table,
             std::string_view key,
             const std::vector<std::string>& was,
             const std::vector<std::string>& wanted) {
    if (table.find(key) == nullptr && !wanted.empty())
        pen.set(table, key, listed(wanted));
    else
        fixEach(pen, tree, table, {.key = key, .was = was, .wanted = wanted, .otherwise = ""});
}

void fixText(Pen& pen,
             const Node& table,
             std::string_view key,
             const std::string& was,
             const std::string& wanted) {
    if (was == wanted)
        return;
    if (wanted.empty())
        pen.erase(table, key);
    else
        pen.set(table, key, quotedText(wanted));
}

} // namespace ebbline::file
