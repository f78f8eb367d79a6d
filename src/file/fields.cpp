// SPDX-License-Identifier: MIT
// Typed reading of one TOML table.
#include "fields.h"

#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::file {
namespace {

constexpr double farthest_m = 1000;

/// The node as a value of the list of keys; nothing for dates, arrays and tables.
std::optional<Value> plainValue(const toml::node& node) {
    if (node.is_number())
        return node.value<double>().value_or(0);
    if (node.is_boolean())
        return node.value<bool>().value_or(false);
    if (node.is_string())
        return node.value<std::string>().value_or("");
    return std::nullopt;
}

/// A value of another type than the key's, for the message about it.
Value otherThan(installation::ValueType type) {
    return type == installation::ValueType::Flag ? Value(0.0) : Value(false);
}

} // namespace

std::optional<Value>
valueOf(const toml::node& node, const installation::Key& key, Problems& problems) {
    auto value = plainValue(node);
    const auto misfit =
        installation::findMisfit(key, value.value_or(otherThan(key.type)), inQuotes(key.name));
    if (!misfit)
        return value;
    problems.add(node.source(), *misfit);
    return std::nullopt;
}

std::optional<std::string>
textOf(const toml::node& node, std::string_view name, Problems& problems) {
    const installation::Key key{.name = name, .type = installation::ValueType::Text};
    const auto value = valueOf(node, key, problems);
    return value ? std::optional(std::get<std::string>(*value)) : std::nullopt;
}

std::optional<Position> positionOf(const toml::node& node, Problems& problems) {
    const toml::array* pair = node.as_array();
    if (pair == nullptr || pair->size() != 2 || !(*pair)[0].is_number() ||
        !(*pair)[1].is_number()) {
        problems.add(node.source(), words("a place wants [x, y] in metres"));
        return std::nullopt;
    }
    const auto coordinate = [&](const toml::node& number) {
        const installation::Key key{.name = "coordinate", .min = -farthest_m, .max = farthest_m};
        return valueOf(number, key, problems);
    };
    const auto x_m = coordinate((*pair)[0]);
    const auto y_m = coordinate((*pair)[1]);
    if (!x_m || !y_m)
        return std::nullopt;
    return Position{std::get<double>(*x_m), std::get<double>(*y_m)};
}

std::vector<Position>
positionsOf(const toml::node& node, std::string_view name, std::size_t least, Problems& problems) {
    std::vector<Position> positions;
    if (node.as_array() == nullptr || node.as_array()->size() < least)
        problems.add(node.source(),
                     words(least == 2 ? phrase("'{}' wants [[x, y], ...] of two places or more")
                                      : phrase("'{}' wants [[x, y], ...] of three places or more"),
                           name));
    else
        for (const toml::node* place : elements(node))
            if (const auto position = positionOf(*place, problems))
                positions.push_back(*position);
    return positions;
}

std::vector<const toml::node*> elements(const toml::node& node) {
    std::vector<const toml::node*> all;
    if (const toml::array* array = node.as_array())
        for (const toml::node& element : *array)
            all.push_back(&element);
    else
        all.push_back(&node);
    return all;
}

const toml::node* Fields::take(std::string_view key) {
    m_known.emplace(key);
    return m_table.get(key);
}

std::string Fields::takeText(std::string_view key) {
    const toml::node* node = take(key);
    return node == nullptr ? "" : textOf(*node, key, m_problems).value_or("");
}

std::optional<double> Fields::takeNumber(std::string_view key, double min, double max) {
    return takeNumber({.name = key, .min = min, .max = max});
}

std::optional<double> Fields::takeNumber(const installation::Key& key) {
    const toml::node* node = take(key.name);
    if (node == nullptr)
        return std::nullopt;
    const auto value = valueOf(*node, key, m_problems);
    return value ? std::optional(std::get<double>(*value)) : std::nullopt;
}

std::vector<const toml::node*>
Fields::takeEach(std::string_view key, std::size_t count, const char* misfit, std::string_view of) {
    const toml::node* node = take(key);
    if (node == nullptr || count == 0)
        return {};
    if (node->as_array() == nullptr)
        return std::vector<const toml::node*>(count, node);
    auto all = elements(*node);
    if (all.size() == count)
        return all;
    m_problems.add(node->source(), words(misfit, key, all.size(), count, of));
    return {};
}

const toml::table* Fields::takeTable(std::string_view key) {
    const toml::node* node = take(key);
    if (node != nullptr && node->as_table() == nullptr)
        m_problems.add(node->source(), words("'{}' wants a table", key));
    return node == nullptr ? nullptr : node->as_table();
}

std::optional<std::string> Fields::requireText(std::string_view key) {
    const toml::node* node = take(key);
    if (node != nullptr)
        return textOf(*node, key, m_problems);
    m_problems.add(m_table.source(), words("missing '{}'", key));
    return std::nullopt;
}

void Fields::eachTable(std::string_view key,
                       const std::function<void(const toml::table&)>& visit,
                       std::size_t most) {
    const toml::node* node = take(key);
    if (node == nullptr)
        return;
    const toml::array* tables = node->as_array();
    if (tables == nullptr || !tables->is_array_of_tables()) {
        m_problems.add(node->source(), words("'{}' wants [[{}]] blocks", key, key));
        return;
    }
    if (tables->size() > most)
        m_problems.add((*tables)[most].source(), words("more than {} [[{}]] blocks", most, key));
    for (std::size_t i = 0; i < std::min(most, tables->size()); ++i)
        visit(*(*tables)[i].as_table());
}

void Fields::finish(const char* sentence, std::string_view in) {
    const std::vector<std::string> known(m_known.begin(), m_known.end());
    for (const auto& [key, node] : m_table)
        if (!m_known.contains(key.str()) && !key.str().starts_with("x-"))
            m_problems.addMeant(
                key.source(), words(sentence, inQuotes(key.str()), in), key.str(), known);
}

} // namespace ebbline::file
