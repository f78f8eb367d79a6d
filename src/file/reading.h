// SPDX-License-Identifier: MIT
// What the readers of parts, runs and changes share while one scene is read.
#pragma once

#include "fields.h"

#include "ebbline/models.h"

#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace ebbline::file {

/// A terminal or run end, and where the text names it.
struct Mention {
    Terminal terminal;
    toml::source_region where;
};

struct Reading {
    Problems& problems;
    const Catalogues& catalogues;
    Installation installation;
    std::map<std::string, toml::source_region, std::less<>> ids; ///< every id of the text
    /// Ids of parts and runs that could not be read: nothing more is said about those.
    std::set<std::string, std::less<>> unread;
    bool has_unread_parts = false;
    bool has_unread_subject = false;
    std::vector<Mention> ends;                          ///< where runs end
    std::map<std::string, std::vector<Mention>> stacks; ///< lugs by stud
    std::vector<Mention> meter_leads;
    std::vector<std::pair<std::string, toml::source_region>> bonds;       ///< the chassis they name
    std::vector<std::pair<std::string, toml::source_region>> change_sets; ///< by id
    std::vector<toml::source_region> faults; ///< where the installation's faults stand
};

/// The id of a block, its place remembered; nothing when there is none or it is taken. An
/// ill-formed one is reported and returned.
[[nodiscard]] std::optional<std::string> takeId(Reading& reading, Fields& fields);

/// The id at the beginning of a path.
[[nodiscard]] inline std::string_view idOf(std::string_view path) {
    return path.substr(0, path.find('.'));
}
/// "part.terminal" at its place; adds a problem for anything else.
[[nodiscard]] std::optional<Mention> mentionOf(Reading& reading, const toml::node& node);

/// A joint as a file states it; what it leaves out is as in `joint`.
[[nodiscard]] Joint jointOf(const Reading& reading,
                            const toml::node& node,
                            const std::string& name,
                            Problems& problems,
                            Joint joint = {});

/// "conductor 'x' has no size of 3 mm2, expected one of 2.5, 4".
[[nodiscard]] std::string
noSize(const std::string& conductor, double area_mm2, const std::map<double, double>& sizes);

/// What an installation names that no catalogue holds; nothing when all is there.
[[nodiscard]] std::optional<std::string> findUncatalogued(const Installation& installation,
                                                          const Catalogues& catalogues);

/// Nothing where there is too much wrong to know what was meant; that is reported.
[[nodiscard]] std::optional<Part> takePart(Reading& reading, const toml::table& block);
[[nodiscard]] std::optional<Run> takeRun(Reading& reading, const toml::table& block);

/// Blocks of changes. They check their paths against everything read before.
void readCondition(Reading& reading, const toml::table& block);
void readVariant(Reading& reading, const toml::table& block);
void readSetup(Reading& reading, const toml::table& block);
void readFault(Reading& reading, const toml::table& block);
void readEvent(Reading& reading, const toml::table& block);
void readSpread(Reading& reading, const toml::table& block);

/// The `set` table of a case, which may change anything that has a key.
[[nodiscard]] std::vector<Set> takeCaseChanges(Reading& reading, Fields& fields);

/// Reads the catalogues that a scene names, adds their entries, and returns their names.
[[nodiscard]] std::vector<std::string>
useCatalogues(Fields& top, const std::filesystem::path& folder, Catalogues& catalogues);
/// Adds the entries of a catalogue. Throws SceneError.
void readCatalogue(const std::string& name, std::string_view text, Catalogues& catalogues);

/// Whether a name, taken as it is written, lies below the folder that it is relative to.
[[nodiscard]] bool isBelow(const std::filesystem::path& name);
/// The plan and what lies on it.
void readPlan(Reading& reading, const toml::table& block);
void readWay(Reading& reading, const toml::table& block);
void readKeepOut(Reading& reading, const toml::table& block);

/// Checks run ends, stacks, bonds and meter leads against parts, terminals and run ends.
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
