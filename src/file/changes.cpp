// SPDX-License-Identifier: MIT
// Blocks of changes: [[condition]], [[variant]], [[setup]], [[fault]], [[event]].
#include "reading.h"

#include "ebbline/words.h"

#include <algorithm>
#include <array>

namespace ebbline::file {
namespace {

using installation::KeyClass;

/// Who makes changes, and to what.
struct Author {
    std::vector<KeyClass> may_change;
    const char* refusal; ///< of another key: its path, and what it is
    const char* unknown_key;
};

const Author condition_author{
    {KeyClass::Quality, KeyClass::State},
    phrase("a condition cannot change {}, which is {}, expected a key of quality or state"),
    phrase("unknown key {} in a condition")};
const Author variant_author{
    {KeyClass::Drawn},
    phrase("a variant cannot change {}, which is {}, expected a key of what is drawn"),
    phrase("unknown key {} in a variant")};
const Author setup_author{{KeyClass::State},
                          phrase("a set-up cannot change {}, which is {}, expected a key of state"),
                          phrase("unknown key {} in a set-up")};
const Author event_author{{KeyClass::State},
                          phrase("an event cannot change {}, which is {}, expected a key of state"),
                          phrase("unknown key {} in an event")};
const Author case_author{{KeyClass::Drawn, KeyClass::Quality, KeyClass::State}, "", ""};

std::string nameOf(KeyClass key_class) {
    return words(key_class == KeyClass::Drawn     ? phrase("drawn")
                 : key_class == KeyClass::Quality ? phrase("a quality")
                                                  : phrase("a state"));
}

std::optional<Set>
changeOf(Reading& reading, const toml::key& key, const toml::node& node, const Author& author) {
    const std::string path(key.str());
    if (reading.problems.isFull())
        return std::nullopt;
    try {
        const auto& target = installation::findTarget(reading.installation, path);
        if (std::ranges::find(author.may_change, target.key_class) == author.may_change.end())
            reading.problems.add(key.source(),
                                 words(author.refusal, inQuotes(path), nameOf(target.key_class)));
        else if (const auto value = valueOf(node, target, reading.problems))
            return Set{path, *value};
    } catch (const SceneError& error) {
        if (!reading.unread.contains(idOf(path)))
            reading.problems.add(key.source(), error.problems().front().message);
    }
    return std::nullopt;
}

/// The changes of a `set` table in the order they were written, with their places.
std::vector<std::pair<Set, toml::source_region>>
takeSet(Reading& reading, Fields& fields, const Author& author) {
    std::vector<std::pair<Set, toml::source_region>> changes;
    constexpr std::size_t most = 1000;
    const toml::table* set = fields.takeTable("set");
    if (set != nullptr && set->size() > most)
        reading.problems.add(set->source(), words("more than {} changes", most));
    else if (set != nullptr)
        for (const auto& [key, node] : *set)
            if (auto change = changeOf(reading, key, node, author))
                changes.emplace_back(std::move(*change), key.source());
    std::ranges::stable_sort(changes, [](const auto& one, const auto& other) {
        const auto &a = one.second.begin, &b = other.second.begin;
        return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
    return changes;
}

/// A named set of changes while it is read.
class SetReader {
public:
    SetReader(Reading& reading, const toml::table& block, const Author& author)
        : m_reading(reading), m_author(author), m_fields(block, reading.problems) {
        m_id = takeId(reading, m_fields);
        m_set.id = m_id.value_or("");
        m_set.name = m_fields.takeText("name");
        for (auto& [change, where] : takeSet(reading, m_fields, author))
            m_set.changes.emplace_back(std::move(change));
    }

    /// What a condition is for; the others may do without.
    void requireSet() {
        if (!m_fields.table().contains("set"))
            m_reading.problems.add(m_fields.table().source(),
                                   words("a condition wants 'set', a table of changes"));
    }

    /// Before placing, so that what is placed may take the id of what goes.
    void takeRemoved() {
        for (const toml::node* node : arrayOf("remove", phrase("'{}' wants an array of ids")))
            if (const auto id = textOf(*node, "remove", m_reading.problems)) {
                m_set.changes.emplace_back(Remove{*id});
                m_removed.push_back(*id);
            }
    }

    void takeOpened() {
        for (const toml::node* node : arrayOf("open", phrase("'{}' wants an array of run ends")))
            if (const auto joint = textOf(*node, "open", m_reading.problems))
                m_set.changes.emplace_back(Open{*joint});
    }

    void takeBridged() {
        for (const toml::node* node :
             arrayOf("bridge", phrase("'{}' wants an array of pairs of terminals"))) {
            const auto ends = elements(*node);
            if (!node->is_array() || ends.size() != 2) {
                m_reading.problems.add(
                    node->source(), words("a bridge wants [\"part.terminal\", \"part.terminal\"]"));
                continue;
            }
            const auto from = mentionOf(m_reading, *ends[0]);
            const auto to = mentionOf(m_reading, *ends[1]);
            if (from && to)
                m_set.changes.emplace_back(Bridge{from->terminal, to->terminal});
        }
    }

    void takePlaced() {
        Reading inner{.problems = m_reading.problems,
                      .catalogues = m_reading.catalogues,
                      .ids = m_reading.ids};
        for (const std::string& id : m_removed)
            inner.ids.erase(id);
        m_fields.eachTable("part", [&](const toml::table& block) {
            if (auto part = takePart(inner, block))
                m_set.changes.emplace_back(Place{std::move(*part)});
        });
        m_fields.eachTable("run", [&](const toml::table& block) {
            if (auto run = takeRun(inner, block))
                m_set.changes.emplace_back(Place{std::move(*run)});
        });
        m_reading.ids.merge(inner.ids);
        m_reading.unread.merge(inner.unread);
    }

    void finish(std::vector<ChangeSet>& sets) {
        m_fields.finish(m_author.unknown_key);
        if (!m_id)
            return;
        m_reading.change_sets.emplace_back(m_set.id, m_fields.table().source());
        sets.push_back(std::move(m_set));
    }

private:
    /// The elements under a key; `wanted` is said of anything but an array.
    std::vector<const toml::node*> arrayOf(const char* key, const char* wanted) {
        const toml::node* node = m_fields.take(key);
        if (node == nullptr)
            return {};
        if (node->is_array())
            return elements(*node);
        m_reading.problems.add(node->source(), words(wanted, key));
        return {};
    }

    Reading& m_reading;
    const Author& m_author;
    Fields m_fields;
    std::optional<std::string> m_id;
    ChangeSet m_set;
    std::vector<std::string> m_removed;
};

/// What can change while the simulation runs.
bool isSwitched(const installation::Key& key) {
    static constexpr std::array<std::string_view, 4> names{"closed", "on", "mated", "connected"};
    return std::ranges::find(names, key.name) != names.end();
}

/// The kind of thing a fault is on; reports what keeps it from being there.
std::optional<std::string> faultyKind(Reading& reading, Fields& fields, const FaultKind* fault) {
    const auto on = fields.requireText("on");
    if (!on)
        return std::nullopt;
    const toml::source_region& where = fields.take("on")->source();
    auto kind = installation::findKind(reading.installation, *on);
    if (!kind && !reading.unread.contains(idOf(*on)))
        reading.problems.add(where, words("nothing is called {}", inQuotes(*on)));
    if (!kind || fault == nullptr || fault->of == *kind)
        return kind;
    reading.problems.add(
        where, words("{} is a {}, this fault is one of a {}", inQuotes(*on), *kind, fault->of));
    return std::nullopt;
}

const FaultKind* takeFaultKind(Reading& reading, Fields& fields) {
    const auto kind = fields.requireText("kind");
    if (!kind)
        return nullptr;
    const auto entry = reading.catalogues.faults.find(*kind);
    if (entry != reading.catalogues.faults.end())
        return &entry->second;
    reading.problems.addUnknown(fields.take("kind")->source(),
                                phrase("unknown fault {}"),
                                *kind,
                                namesOf(reading.catalogues.faults));
    return nullptr;
}

} // namespace

std::vector<Set> takeCaseChanges(Reading& reading, Fields& fields) {
    std::vector<Set> changes;
    for (auto& [change, where] : takeSet(reading, fields, case_author))
        changes.push_back(std::move(change));
    return changes;
}

void readCondition(Reading& reading, const toml::table& block) {
    SetReader reader(reading, block, condition_author);
    reader.requireSet();
    reader.finish(reading.installation.conditions);
}

void readVariant(Reading& reading, const toml::table& block) {
    SetReader reader(reading, block, variant_author);
    reader.takeRemoved();
    reader.takePlaced();
    reader.finish(reading.installation.variants);
}

void readSetup(Reading& reading, const toml::table& block) {
    SetReader reader(reading, block, setup_author);
    reader.takeOpened();
    reader.takeBridged();
    reader.takeRemoved();
    reader.takePlaced();
    reader.finish(reading.installation.setups);
}

void readFault(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    const FaultKind* known = takeFaultKind(reading, fields);
    const auto kind = faultyKind(reading, fields, known);
    if (known == nullptr || !kind)
        return; // which other keys may stand here is unknown
    Fault fault{.on = fields.takeText("on"), .kind = fields.takeText("kind"), .set = {}};
    for (const auto& [key, value] : known->set)
        fault.set.push_back({fault.on + "." + key, value});
    for (const installation::Key& key : installation::keys())
        if (key.kind == *kind && key.name != "on" && key.name != "kind")
            if (const toml::node* node = fields.take(key.name))
                if (const auto value = valueOf(*node, key, reading.problems))
                    fault.set.push_back({fault.on + "." + std::string(key.name), *value});
    fields.finish(phrase("unknown key {} in a fault on a {}"), *kind);
    reading.installation.faults.push_back(std::move(fault));
    reading.faults.push_back(block.source());
}

void readEvent(Reading& reading, const toml::table& block) {
    constexpr double latest_s = 86400;
    Fields fields(block, reading.problems);
    Event event;
    for (const char* key : {"at_s", "set"})
        if (!block.contains(key))
            reading.problems.add(block.source(), words("an event wants '{}'", key));
    event.at_s = fields.takeNumber("at_s", 0, latest_s).value_or(0);
    for (auto& [change, where] : takeSet(reading, fields, event_author)) {
        if (!isSwitched(installation::findTarget(reading.installation, change.path)))
            reading.problems.add(where,
                                 words("{} cannot change while a start is simulated, expected "
                                       "something switched: closed, on, mated or connected",
                                       inQuotes(change.path)));
        event.set.push_back(std::move(change));
    }
    fields.finish(event_author.unknown_key);
    reading.installation.events.push_back(std::move(event));
}

} // namespace ebbline::file
