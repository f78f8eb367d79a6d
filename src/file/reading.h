// SPDX-License-Identifier: MIT
// What the readers of parts, runs and changes share while one scene is read.
#pragma once

#include "fields.h"

#include "ebbline/models.h"

#include <array>
#include <map>
#include <string>
#include <vector>

namespace ebbline::file {

/// Kinds of the format that this version cannot simulate.
inline constexpr std::array<std::string_view, 2> later_kinds{"chassis", "bond"};

/// A terminal or run end, and where the text names it.
struct Mention {
    Terminal terminal;
    toml::source_region where;
};

struct Reading {
    Problems& problems;
    const Catalogues& catalogues;
    Installation installation;
    /// Every id of the text, also of what could not be read: nothing more is said about those.
    std::map<std::string, toml::source_region, std::less<>> ids;
    bool has_unread_parts = false;
    std::vector<Mention> ends;                          ///< where runs end
    std::map<std::string, std::vector<Mention>> stacks; ///< lugs by stud
};

/// The id of a block, its place remembered; nothing when there is none or it is taken. An
/// ill-formed one is reported and returned.
[[nodiscard]] std::optional<std::string> takeId(Reading& reading, Fields& fields);

/// "part.terminal" at its place; adds a problem for anything else.
[[nodiscard]] std::optional<Mention> mentionOf(Reading& reading, const toml::node& node);

void readPart(Reading& reading, const toml::table& block);
void readRun(Reading& reading, const toml::table& block);
/// Both check their paths against everything read before.
void readCondition(Reading& reading, const toml::table& block);
void readEvent(Reading& reading, const toml::table& block);

/// Checks run ends against parts and their terminals, and stacks against run ends.
void checkReferences(Reading& reading);

/// The names under which a map holds its entries.
template <class Map>
std::vector<std::string> namesOf(const Map& map) {
    std::vector<std::string> names;
    names.reserve(map.size());
    for (const auto& [name, entry] : map)
        names.push_back(name);
    return names;
}

} // namespace ebbline::file
