// SPDX-License-Identifier: MIT
// The one list of keys that names every number, flag and word of an installation.
#pragma once

#include "ebbline/parts.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

namespace ebbline {

using Value = std::variant<double, bool, std::string>;

namespace installation {

/// What a key describes, and so who may change it: events change State; conditions State and
/// Quality; sizing and routing Drawn; faults any.
enum class KeyClass { Drawn, Quality, State };
enum class ValueType { Number, Flag, Text };

/// One key of one kind, as files, changes and circuits name it.
struct Key {
    std::string_view kind; ///< "battery", "fuse", ..., "run", "joint", "panel-way"
    std::string_view name; ///< with its unit suffix, as in the file
    ValueType type = ValueType::Number;
    double min = 0; ///< numbers only, both ends allowed
    double max = 0;
    KeyClass key_class = KeyClass::Drawn;
    std::string_view meaning;
    bool whole = false;              ///< numbers only: without a fraction
    std::span<const double> choices; ///< numbers only: nothing else allowed; empty: all in range
    std::span<const std::string_view> words; ///< texts only: nothing else allowed; empty: any
    bool in_circuit =
        true; ///< numbers and flags: false where no circuit model has such a parameter
};

/// Every key there is, by kind, in the order files show them.
[[nodiscard]] std::span<const Key> keys();
[[nodiscard]] const Key* findKey(std::string_view kind, std::string_view name);
/// What keeps a value from being one of the key's: "'charge_pct' is 130, expected 0 to 100", said
/// of `name`, which has its quotes already; nothing if it fits.
[[nodiscard]] std::optional<std::string>
findMisfit(const Key& key, const Value& value, std::string_view name);

/// Reads or sets one key of a part. The key belongs to the part's kind and the value to its type
/// and range, both checked before. An optional number that is absent reads as nothing.
[[nodiscard]] std::optional<Value> get(const Part& part, const Key& key);
void set(Part& part, const Key& key, const Value& value);

/// A number of a thing and its field.
template <class Thing>
struct NumberOf {
    std::string_view name;
    double Thing::* number = nullptr; ///< one of the two
    std::optional<double> Thing::* optional = nullptr;

    /// Nothing where it is optional and absent.
    [[nodiscard]] std::optional<double> of(const Thing& thing) const {
        return number != nullptr ? std::optional(thing.*number) : thing.*optional;
    }
    /// Nothing: back to what it is where nothing is said of it.
    void set(Thing& thing, std::optional<double> value) const {
        if (number != nullptr)
            thing.*number = value.value_or(Thing{}.*number);
        else
            thing.*optional = value;
    }
};
using RunNumber = NumberOf<Run>;
using JointNumber = NumberOf<Joint>;
/// Every number of a whole run, in the order files show them.
[[nodiscard]] std::span<const RunNumber> runNumbers();
/// Every number of a joint, in the same order.
[[nodiscard]] std::span<const JointNumber> jointNumbers();

} // namespace installation
} // namespace ebbline
