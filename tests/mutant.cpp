// SPDX-License-Identifier: MIT
// Changes of meaning on the tree of a TOML text: keys, values, arrays, blocks, ids, references.
#include "mutant.h"

#include "drawn.h"

#include "ebbline/file.h"
#include "ebbline/keys.h"

#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <limits>
#include <set>
#include <sstream>
#include <string_view>

namespace ebbline::mutants {
namespace {

/// One node of a tree and where it hangs: under a key of a table, or at a place of an array.
struct Slot {
    toml::node* node = nullptr;
    toml::table* table = nullptr;
    std::string_view key;
    toml::array* array = nullptr;
    std::size_t index = 0;

    [[nodiscard]] std::string name() const {
        return table != nullptr ? std::string(key) : "[" + std::to_string(index) + "]";
    }
    [[nodiscard]] bool isBlock() const { return array != nullptr && node->is_table(); }
};

void collect(toml::node& node, std::vector<Slot>& slots) {
    if (toml::table* table = node.as_table())
        for (auto&& [key, child] : *table) {
            slots.push_back({.node = &child, .table = table, .key = key.str()});
            collect(child, slots);
        }
    if (toml::array* array = node.as_array())
        for (std::size_t i = 0; i < array->size(); ++i) {
            slots.push_back({.node = &(*array)[i], .array = array, .index = i});
            collect((*array)[i], slots);
        }
}

void put(toml::table& table, const std::string& key, const toml::node& value) {
    value.visit([&](const auto& concrete) { table.insert_or_assign(key, concrete); });
}

void insert(toml::array& array, std::size_t index, const toml::node& value) {
    const auto at = array.begin() + static_cast<std::ptrdiff_t>(index);
    value.visit([&](const auto& concrete) { array.insert(at, concrete); });
}

void remove(const Slot& slot) {
    if (slot.table != nullptr)
        slot.table->erase(std::string(slot.key));
    else
        slot.array->erase(slot.array->begin() + static_cast<std::ptrdiff_t>(slot.index));
}

template <class Value>
void replace(const Slot& slot, const Value& value) {
    if (slot.table != nullptr)
        slot.table->insert_or_assign(slot.key, value);
    else
        slot.array->replace(slot.array->begin() + static_cast<std::ptrdiff_t>(slot.index), value);
}

void replaceBy(const Slot& slot, const toml::node& value) {
    value.visit([&](const auto& concrete) { replace(slot, concrete); });
}

/// A node of its own, as what it is copied from may go.
toml::array copyOf(const toml::node& node) {
    toml::array holder;
    insert(holder, 0, node);
    return holder;
}

std::string textOf(const toml::table& table) {
    std::ostringstream out;
    out << toml::toml_formatter(table);
    return out.str();
}

} // namespace

struct Breeder::Stock {
    std::vector<toml::table> scenes;
    std::vector<std::string> words; ///< every text value and id.terminal there is
    std::vector<std::string> keys;  ///< every key of the format and of the scenes
};

namespace {

/// Makes one mutant.
class Mutation {
public:
    Mutation(toml::table scene,
             const std::vector<std::string>& words,
             const std::vector<std::string>& keys,
             std::mt19937_64& random)
        : m_scene(std::move(scene)), m_words(words), m_keys(keys), m_random(random) {}

    Mutant make() {
        constexpr std::array<std::size_t, 8> counts{1, 1, 1, 1, 2, 2, 3, 4};
        for (std::size_t left = pick(counts); left > 0; --left)
            changeOnce();
        return {textOf(m_scene), m_story};
    }

private:
    using Change = void (Mutation::*)();

    void changeOnce() {
        static constexpr std::array changes{&Mutation::dropKey,
                                            &Mutation::renameKey,
                                            &Mutation::swapValues,
                                            &Mutation::swapNamesakes,
                                            &Mutation::swapNamesakes,
                                            &Mutation::changeType,
                                            &Mutation::changeNumber,
                                            &Mutation::nudgeNumber,
                                            &Mutation::nudgeNumber,
                                            &Mutation::changeWord,
                                            &Mutation::changeWord,
                                            &Mutation::turnFlag,
                                            &Mutation::lengthen,
                                            &Mutation::shorten,
                                            &Mutation::repeatBlock,
                                            &Mutation::dropBlock,
                                            &Mutation::moveBlock,
                                            &Mutation::copyKey};
        m_slots.clear();
        collect(m_scene, m_slots);
        (this->*pick(changes))();
    }

    std::size_t below(std::size_t count) { return static_cast<std::size_t>(m_random() % count); }

    template <class Range>
    const typename Range::value_type& pick(const Range& range) {
        return range[below(range.size())];
    }

    /// A random slot of those that fit; nothing when there is none.
    template <class Fits>
    const Slot* find(const Fits& fits) {
        std::vector<const Slot*> found;
        for (const Slot& slot : m_slots)
            if (fits(slot))
                found.push_back(&slot);
        return found.empty() ? nullptr : pick(found);
    }

    void tell(const std::string& what) { m_story += (m_story.empty() ? "" : "; ") + what; }

    static bool isKeyed(const Slot& slot) { return slot.table != nullptr; }
    static bool isPlain(const Slot& slot) { return slot.node->is_value(); }
    static bool isText(const Slot& slot) { return slot.node->is_string(); }
    static bool isNumber(const Slot& slot) { return slot.node->is_number(); }
    static bool isFlag(const Slot& slot) { return slot.node->is_boolean(); }
    static bool isArray(const Slot& slot) { return slot.node->is_array(); }
    static bool isBlock(const Slot& slot) { return slot.isBlock(); }

    void dropKey() {
        if (const Slot* slot = find(isKeyed)) {
            tell("dropped " + slot->name());
            remove(*slot);
        }
    }

    void renameKey() {
        if (const Slot* slot = find(isKeyed)) {
            const std::string& name = pick(m_keys);
            tell("renamed " + slot->name() + " to " + name);
            const toml::array value = copyOf(*slot->node);
            toml::table& table = *slot->table;
            remove(*slot);
            put(table, name, value[0]);
        }
    }

    /// A key of one table said in another as well.
    void copyKey() {
        const Slot* from = find(isKeyed);
        const Slot* to = find(isKeyed);
        if (from == nullptr || to == nullptr)
            return;
        tell("copied " + from->name() + " beside " + to->name());
        const toml::array value = copyOf(*from->node);
        put(*to->table, from->name(), value[0]);
    }

    void exchange(const Slot& one, const Slot& other) {
        tell("exchanged " + one.name() + " and " + other.name());
        const toml::array first = copyOf(*one.node);
        const toml::array second = copyOf(*other.node);
        replaceBy(one, second[0]);
        replaceBy(other, first[0]);
    }

    void swapValues() {
        const Slot* one = find(isPlain);
        const Slot* other = find(isPlain);
        if (one != nullptr && other != nullptr)
            exchange(*one, *other);
    }

    /// Ids with ids, kinds with kinds, ends with ends.
    void swapNamesakes() {
        const Slot* one = find(isKeyed);
        const Slot* other =
            one == nullptr ? nullptr : find([&](const Slot& slot) { return slot.key == one->key; });
        if (other != nullptr && one != other && !one->node->is_table() && !holdsBlocks(*one) &&
            !holdsBlocks(*other) && !other->node->is_table())
            exchange(*one, *other);
    }

    static bool holdsBlocks(const Slot& slot) {
        return slot.node->is_array() && slot.node->as_array()->is_array_of_tables();
    }

    void changeType() {
        const Slot* slot = find([](const Slot& any) { return !any.isBlock(); });
        if (slot == nullptr)
            return;
        tell("changed the type of " + slot->name());
        const toml::array old = copyOf(*slot->node);
        switch (below(7)) {
        case 0:
            return replace(*slot, std::string("text"));
        case 1:
            return replace(*slot, 1.5);
        case 2:
            return replace(*slot, std::int64_t{3});
        case 3:
            return replace(*slot, true);
        case 4:
            return replace(*slot, toml::date{2026, 11, 25});
        case 5:
            return replace(*slot, old);
        default:
            replace(*slot, toml::table{{"kind", 1}});
        }
    }

    void changeNumber() {
        using Limits = std::numeric_limits<double>;
        constexpr std::array extremes{0.0,
                                      -0.0,
                                      -1.0,
                                      0.01,
                                      40.0,
                                      1e-9,
                                      1e6,
                                      1e9,
                                      1e300,
                                      -1e300,
                                      Limits::denorm_min(),
                                      Limits::infinity(),
                                      -Limits::infinity(),
                                      Limits::quiet_NaN()};
        const Slot* slot = find(isNumber);
        if (slot == nullptr)
            return;
        if (below(6) == 0) {
            tell("made " + slot->name() + " the largest integer");
            return replace(*slot, std::numeric_limits<std::int64_t>::max());
        }
        const double value = pick(extremes);
        tell("made " + slot->name() + " " + std::to_string(value));
        replace(*slot, value);
    }

    void nudgeNumber() {
        constexpr std::array factors{0.01, 0.1, 0.5, 0.9, 1.1, 2.0, 10.0, 100.0, -1.0};
        const Slot* slot = find(isNumber);
        if (slot == nullptr)
            return;
        const double factor = pick(factors);
        tell("multiplied " + slot->name() + " by " + std::to_string(factor));
        replace(*slot, slot->node->value<double>().value_or(1) * factor);
    }

    void changeWord() {
        if (const Slot* slot = find(isText)) {
            const std::string& word = pick(m_words);
            tell("made " + slot->name() + " '" + word + "'");
            replace(*slot, word);
        }
    }

    void turnFlag() {
        if (const Slot* slot = find(isFlag)) {
            tell("turned " + slot->name());
            replace(*slot, !slot->node->value<bool>().value_or(false));
        }
    }

    void lengthen() {
        const Slot* slot =
            find([](const Slot& any) { return isArray(any) && !any.node->as_array()->empty(); });
        if (slot == nullptr)
            return;
        toml::array& array = *slot->node->as_array();
        tell("lengthened " + slot->name());
        const toml::array element = copyOf(array[below(array.size())]);
        for (std::size_t more = 1 + below(3); more > 0; --more)
            insert(array, below(array.size() + 1), element[0]);
    }

    void shorten() {
        const Slot* slot =
            find([](const Slot& any) { return isArray(any) && !any.node->as_array()->empty(); });
        if (slot == nullptr)
            return;
        toml::array& array = *slot->node->as_array();
        tell("shortened " + slot->name());
        if (below(4) == 0)
            array.clear();
        else
            array.erase(array.begin() + static_cast<std::ptrdiff_t>(below(array.size())));
    }

    void repeatBlock() {
        const Slot* slot = find(isBlock);
        if (slot == nullptr)
            return;
        tell("repeated a block");
        toml::array copy = copyOf(*slot->node);
        if (toml::table& block = *copy[0].as_table(); block.contains("id") && below(3) > 0)
            block.insert_or_assign("id", "copy-" + std::to_string(below(1000)));
        insert(*slot->array, below(slot->array->size() + 1), copy[0]);
    }

    void dropBlock() {
        if (const Slot* slot = find(isBlock)) {
            tell("dropped a block");
            remove(*slot);
        }
    }

    /// To another place among its own, or among blocks of another kind; not into itself.
    void moveBlock() {
        const Slot* slot = find(isBlock);
        const Slot* target = find([](const Slot& any) { return holdsBlocks(any); });
        if (slot == nullptr || target == nullptr || isWithin(*target->node, *slot->node))
            return;
        tell("moved a block to " + target->name());
        const toml::array block = copyOf(*slot->node);
        toml::array& array = below(2) == 0 ? *slot->array : *target->node->as_array();
        remove(*slot);
        insert(array, below(array.size() + 1), block[0]);
    }

    static bool isWithin(toml::node& inner, toml::node& outer) {
        std::vector<Slot> slots;
        collect(outer, slots);
        return std::ranges::any_of(slots, [&](const Slot& slot) { return slot.node == &inner; });
    }

    toml::table m_scene;
    const std::vector<std::string>& m_words;
    const std::vector<std::string>& m_keys;
    std::mt19937_64& m_random;
    std::vector<Slot> m_slots;
    std::string m_story;
};

} // namespace

Breeder::Breeder(const std::vector<std::string>& scenes, std::uint64_t seed) : m_random(seed) {
    auto stock = std::make_unique<Stock>();
    std::set<std::string> words;
    std::set<std::string> keys;
    for (const std::string& scene : scenes) {
        stock->scenes.push_back(toml::parse(scene));
        std::vector<Slot> slots;
        collect(stock->scenes.back(), slots);
        for (const Slot& slot : slots) {
            if (slot.table != nullptr)
                keys.emplace(slot.key);
            if (const auto word = slot.node->value<std::string>())
                words.insert(*word);
        }
    }
    for (const installation::Key& key : installation::keys())
        keys.emplace(key.name);
    for (const std::string& kind : installation::kinds())
        words.insert(kind);
    for (const char* word : {"", ".", "a.", ".b", "joints", "surroundings", "none", "loose"})
        words.insert(word);
    stock->words.assign(words.begin(), words.end());
    stock->keys.assign(keys.begin(), keys.end());
    m_stock = std::move(stock);
}

Breeder::~Breeder() = default;

Mutant Breeder::breed() {
    const toml::table& scene = m_stock->scenes[m_random() % m_stock->scenes.size()];
    return Mutation(scene, m_stock->words, m_stock->keys, m_random).make();
}

std::string completeFolder() {
    return std::string(EBBLINE_SOURCE_DIR) + "/tests/data/complete";
}

std::vector<std::string> sceneTexts() {
    std::vector<std::string> texts;
    for (const std::string& name : drawn::sceneNames())
        texts.push_back(file::readBytes(std::string(EBBLINE_SOURCE_DIR) + "/scenes/" + name));
    for (const char* name : {"/every-kind-12.toml", "/chassis-24.toml"})
        texts.push_back(file::readBytes(completeFolder() + name));
    return texts;
}

} // namespace ebbline::mutants
