// SPDX-License-Identifier: MIT
// How a key reaches its field.
#pragma once

#include "ebbline/keys.h"

#include <array>
#include <functional>
#include <optional>
#include <type_traits>
#include <vector>

namespace ebbline::installation {

struct Field {
    Key key;
    std::function<std::optional<Value>(const Part&)> get;
    std::function<void(Part&, const Value&)> set;
};

/// Every key of every part kind, with its field.
[[nodiscard]] const std::vector<Field>& fields();

[[nodiscard]] std::vector<Field> sourceFields();
[[nodiscard]] std::vector<Field> protectionFields();
[[nodiscard]] std::vector<Field> wiringFields();
[[nodiscard]] std::vector<Field> consumerFields();
[[nodiscard]] std::vector<Field> unitFields();

[[nodiscard]] inline std::vector<Field> joined(const std::vector<std::vector<Field>>& groups) {
    std::vector<Field> all;
    for (const auto& group : groups)
        all.insert(all.end(), group.begin(), group.end());
    return all;
}

constexpr Key number(std::string_view kind,
                     std::string_view name,
                     double min,
                     double max,
                     KeyClass key_class,
                     std::string_view meaning) {
    return {kind, name, ValueType::Number, min, max, key_class, meaning};
}
constexpr Key
flag(std::string_view kind, std::string_view name, KeyClass key_class, std::string_view meaning) {
    return {kind, name, ValueType::Flag, 0, 1, key_class, meaning};
}
constexpr Key textual(std::string_view kind,
                      std::string_view name,
                      KeyClass key_class,
                      std::string_view meaning) {
    return {kind, name, ValueType::Text, 0, 0, key_class, meaning};
}
constexpr Key whole(Key key) {
    key.whole = true;
    return key;
}
constexpr Key beside(Key key) {
    key.in_circuit = false;
    return key;
}
constexpr Key one(Key key, std::span<const double> choices) {
    key.choices = choices;
    return key;
}
constexpr Key one(Key key, std::span<const std::string_view> words) {
    key.words = words;
    return key;
}

/// A field of a part's body under its key.
template <class Body, class Member>
Field field(Key key, Member Body::* member) {
    using Held = std::conditional_t<std::is_same_v<Member, std::optional<double>>, double, Member>;
    return {key,
            [member](const Part& part) -> std::optional<Value> {
                const Member& value = std::get<Body>(part.body).*member;
                if constexpr (std::is_same_v<Member, std::optional<double>>)
                    return value ? std::optional<Value>(*value) : std::nullopt;
                else
                    return Value(value);
            },
            [member](Part& part, const Value& value) {
                std::get<Body>(part.body).*member = std::get<Held>(value);
            }};
}

} // namespace ebbline::installation
