// SPDX-License-Identifier: MIT
// A TOML text as a tree that knows the bytes of every key and value.
#include "edit_tree.h"

#include <toml++/toml.h>

#include <algorithm>

namespace ebbline::file {
namespace {

void collectSections(const Node& node, std::vector<const Container*>& sections) {
    if (node.form == Node::Form::Table && node.home != nullptr && node.prefix.empty() &&
        node.home->form == Container::Form::Section)
        sections.push_back(node.home);
    for (const Field& field : node.fields)
        collectSections(*field.node, sections);
    for (const Node* element : node.elements)
        collectSections(*element, sections);
}

} // namespace

const Field* Node::find(std::string_view name) const {
    const auto place = std::ranges::find(fields, name, &Field::name);
    return place == fields.end() ? nullptr : &*place;
}

std::vector<const Node*> elementsOf(const Node& node) {
    if (!node.isList())
        return {&node};
    return {node.elements.begin(), node.elements.end()};
}

std::string decoded(std::string_view token) {
    if (token.size() >= 2 && (token[0] == '"' || token[0] == '\'') &&
        token.find(token[0], 1) == token.size() - 1 && token.find('\\') == std::string_view::npos)
        return std::string(token.substr(1, token.size() - 2)); // most of them
    try {
        const toml::table table = toml::parse("text = " + std::string(token));
        return table["text"].value<std::string>().value_or("");
    } catch (const toml::parse_error&) {
        return "";
    }
}

std::vector<const Container*> sectionsOf(const Node& table) {
    std::vector<const Container*> sections;
    collectSections(table, sections);
    return sections;
}

} // namespace ebbline::file
