// SPDX-License-Identifier: MIT
// [[condition]] and [[event]] blocks: changes by path.
#include "reading.h"

#include <algorithm>

namespace ebbline::file {
namespace {

using installation::KeyClass;

/// Who makes changes, and to what.
struct Author {
    std::string name;
    std::vector<KeyClass> may_change;
    std::string expected;
};

const Author condition_author{
    "a condition", {KeyClass::Quality, KeyClass::State}, "a key of quality or state"};
const Author event_author{"an event", {KeyClass::State}, "a key of state"};

std::string nameOf(KeyClass key_class) {
    return key_class == KeyClass::Drawn     ? "drawn"
           : key_class == KeyClass::Quality ? "a quality"
                                            : "a state";
}

/// Whether the path begins with something that the text holds but that could not be read.
bool isBroken(const Reading& reading, const std::string& path) {
    const std::string id = path.substr(0, path.find('.'));
    return reading.ids.contains(id) && reading.installation.findPart(id) == nullptr &&
           reading.installation.findRun(id) == nullptr;
}

std::optional<Change>
changeOf(Reading& reading, const toml::key& key, const toml::node& node, const Author& author) {
    const std::string path(key.str());
    if (reading.problems.isFull())
        return std::nullopt;
    try {
        const auto& target = installation::findTarget(reading.installation, path);
        if (std::ranges::find(author.may_change, target.key_class) == author.may_change.end())
            reading.problems.add(key.source(),
                                 author.name + " cannot change " + inQuotes(path) + ", which is " +
                                     nameOf(target.key_class) + ", expected " + author.expected);
        else if (const auto value = valueOf(node, target, reading.problems))
            return Change{path, *value};
    } catch (const SceneError& error) {
        if (!isBroken(reading, path))
            reading.problems.add(key.source(), error.problems().front().message);
    }
    return std::nullopt;
}

/// The changes of a `set` table in the order they were written, with their places.
std::vector<std::pair<Change, toml::source_region>>
takeSet(Reading& reading, Fields& fields, const Author& author) {
    std::vector<std::pair<Change, toml::source_region>> changes;
    const toml::table* set = fields.takeTable("set");
    if (!fields.table().contains("set"))
        reading.problems.add(fields.table().source(),
                             author.name + " wants 'set', a table of changes");
    if (set != nullptr)
        for (const auto& [key, node] : *set)
            if (auto change = changeOf(reading, key, node, author))
                changes.emplace_back(std::move(*change), key.source());
    std::ranges::stable_sort(changes, [](const auto& one, const auto& other) {
        const auto &a = one.second.begin, &b = other.second.begin;
        return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
    return changes;
}

} // namespace

void readCondition(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    const auto id = takeId(reading, fields);
    Condition condition{.id = id.value_or(""), .name = fields.takeText("name")};
    for (auto& [change, where] : takeSet(reading, fields, condition_author))
        condition.set.push_back(std::move(change));
    fields.finish("a condition");
    if (id)
        reading.installation.conditions.push_back(std::move(condition));
}

void readEvent(Reading& reading, const toml::table& block) {
    constexpr double latest_s = 86400;
    Fields fields(block, reading.problems);
    Event event;
    if (!block.contains("at_s"))
        reading.problems.add(block.source(), "an event wants 'at_s'");
    event.at_s = fields.takeNumber("at_s", 0, latest_s).value_or(0);
    for (auto& [change, where] : takeSet(reading, fields, event_author)) {
        if (!change.path.ends_with(".closed"))
            reading.problems.add(where,
                                 "an event on " + inQuotes(change.path) +
                                     " is not supported yet by this version, expected a "
                                     "contact's 'closed'");
        event.set.push_back(std::move(change));
    }
    fields.finish("an event");
    reading.installation.events.push_back(std::move(event));
}

} // namespace ebbline::file
