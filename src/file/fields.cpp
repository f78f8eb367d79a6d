// SPDX-License-Identifier: MIT
// Typed reading of one TOML table.
#include "fields.h"

#include "ebbline/text.h"

#include <cmath>

namespace ebbline::file {
namespace {

std::optional<double> numberOf(
    const toml::node& node, std::string_view name, double min, double max, Problems& problems) {
    const auto value = node.value<double>();
    if (!value || !node.is_number()) {
        problems.add(node.source(), "'" + std::string(name) + "' wants a number");
        return std::nullopt;
    }
    if (!std::isfinite(*value) || *value < min || *value > max) {
        problems.add(node.source(),
                     "'" + std::string(name) + "' is " + text::number(*value) + ", expected " +
                         text::number(min) + " to " + text::number(max));
        return std::nullopt;
    }
    return value;
}

std::optional<std::string>
textOf(const toml::node& node, std::string_view name, Problems& problems) {
    auto value = node.value<std::string>();
    if (!node.is_string()) {
        problems.add(node.source(), "'" + std::string(name) + "' wants a text in quotes");
        return std::nullopt;
    }
    return value;
}

} // namespace

std::optional<Value>
valueOf(const toml::node& node, const installation::Key& key, Problems& problems) {
    switch (key.type) {
    case installation::ValueType::Number:
        return numberOf(node, key.name, key.min, key.max, problems);
    case installation::ValueType::Text:
        return textOf(node, key.name, problems);
    case installation::ValueType::Flag:
        break;
    }
    if (!node.is_boolean()) {
        problems.add(node.source(), "'" + std::string(key.name) + "' wants true or false");
        return std::nullopt;
    }
    return node.value<bool>();
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
    const toml::node* node = take(key);
    return node == nullptr ? std::nullopt : numberOf(*node, key, min, max, m_problems);
}

std::optional<std::string> Fields::requireText(std::string_view key) {
    const toml::node* node = take(key);
    if (node != nullptr)
        return textOf(*node, key, m_problems);
    m_problems.add(m_table.source(), "missing '" + std::string(key) + "'");
    return std::nullopt;
}

void Fields::eachTable(std::string_view key, const std::function<void(const toml::table&)>& visit) {
    const toml::node* node = take(key);
    if (node == nullptr)
        return;
    const toml::array* tables = node->as_array();
    if (tables == nullptr || !tables->is_array_of_tables()) {
        m_problems.add(node->source(),
                       "'" + std::string(key) + "' wants [[" + std::string(key) + "]] blocks");
        return;
    }
    for (const toml::node& table : *tables)
        visit(*table.as_table());
}

void Fields::finish(const std::string& what) {
    const std::vector<std::string> known(m_known.begin(), m_known.end());
    for (const auto& [key, node] : m_table)
        if (!m_known.contains(key.str()) && !key.str().starts_with("x-"))
            m_problems.addUnknown(key.source(), "key in " + what, key.str(), known);
}

} // namespace ebbline::file
