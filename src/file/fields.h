// SPDX-License-Identifier: MIT
// Typed reading of one TOML table: every key is asked for once, the rest is unknown.
#pragma once

#include "problems.h"

#include "ebbline/installation.h"

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline::file {

/// The value of a node as the key wants it; adds a problem for a value that does not fit.
[[nodiscard]] std::optional<Value>
valueOf(const toml::node& node, const installation::Key& key, Problems& problems);
/// The text of a node; adds a problem where there is none.
[[nodiscard]] std::optional<std::string>
textOf(const toml::node& node, std::string_view name, Problems& problems);
/// A place on the plan, [x, y] in metres; adds a problem where there is none.
[[nodiscard]] std::optional<Position> positionOf(const toml::node& node, Problems& problems);

/// `least` (two or three) places or more; adds a problem where there are fewer.
[[nodiscard]] std::vector<Position>
positionsOf(const toml::node& node, std::string_view name, std::size_t least, Problems& problems);

/// The elements of an array, or the node itself where it is none.
[[nodiscard]] std::vector<const toml::node*> elements(const toml::node& node);

class Fields {
public:
    Fields(const toml::table& table, Problems& problems) : m_table(table), m_problems(problems) {}

    /// The node, if the key is there; from now on the key counts as known.
    [[nodiscard]] const toml::node* take(std::string_view key);
    /// The key is known but says nothing here.
    void skip(std::string_view key) { m_known.emplace(key); }
    [[nodiscard]] std::string takeText(std::string_view key);
    [[nodiscard]] std::optional<double> takeNumber(std::string_view key, double min, double max);
    /// A number of the list of keys.
    [[nodiscard]] std::optional<double> takeNumber(const installation::Key& key);
    /// One node for each of `count` things: an array of that length, or one value that stands for
    /// all; none when the key is not there or has another length, which is a problem: `misfit` is
    /// said of it, with the key, how many there are, how many things there are, and of what.
    [[nodiscard]] std::vector<const toml::node*>
    takeEach(std::string_view key, std::size_t count, const char* misfit, std::string_view of = {});
    /// The table under the key, if it is there; adds a problem for anything else.
    [[nodiscard]] const toml::table* takeTable(std::string_view key);
    /// Text that must be there; a problem and nothing otherwise.
    [[nodiscard]] std::optional<std::string> requireText(std::string_view key);
    /// Tables of an array of tables, of which there may be `most`: what is read of them takes
    /// longer than they are many.
    void eachTable(std::string_view key,
                   const std::function<void(const toml::table&)>& visit,
                   std::size_t most = 1000);
    /// Adds a problem for each key nobody asked for; keys that begin with x- are free. `sentence`
    /// is one of the table such as "unknown key {} in a run", which may also say in what.
    void finish(const char* sentence, std::string_view in = {});

    [[nodiscard]] const toml::table& table() const { return m_table; }
    [[nodiscard]] Problems& problems() { return m_problems; }

private:
    const toml::table& m_table;
    Problems& m_problems;
    std::set<std::string, std::less<>> m_known;
};

} // namespace ebbline::file
