// SPDX-License-Identifier: MIT
// Whether a value is one that a key may have, and what it should have been.
#include "ebbline/keys.h"
#include "ebbline/text.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace ebbline::installation {
namespace {

/// For people: 1000000 rather than 1e+06.
std::string plain(double value) {
    return fmt::format("{}", value);
}

/// "new, tired, corroded or loose"
std::string listed(std::span<const std::string> names) {
    std::string out;
    for (std::size_t i = 0; i < names.size(); ++i)
        out += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
    return out;
}

std::string expectedNumber(const Key& key) {
    if (key.choices.empty())
        return (key.whole ? "a whole number from " : "") + plain(key.min) + " to " + plain(key.max);
    std::vector<std::string> names;
    for (const double choice : key.choices)
        names.push_back(plain(choice));
    return listed(names);
}

bool fits(const Key& key, double value) {
    if (!key.choices.empty())
        return std::ranges::find(key.choices, value) != key.choices.end();
    // Comparisons with nan are false.
    return value >= key.min && value <= key.max && (!key.whole || value == std::round(value));
}

} // namespace

std::optional<std::string> findMisfit(const Key& key, const Value& value) {
    static constexpr std::array wanted{"a number", "true or false", "a text in quotes"};
    const auto type = static_cast<std::size_t>(key.type);
    if (value.index() != type)
        return std::string("wants ") + wanted.at(type);
    const auto* number = std::get_if<double>(&value);
    if (number != nullptr && !fits(key, *number))
        return "is " + plain(*number) + ", expected " + expectedNumber(key);
    const auto* word = std::get_if<std::string>(&value);
    if (word != nullptr && !key.words.empty() &&
        std::ranges::find(key.words, *word) == key.words.end())
        return "is " + text::inQuotes(*word) + ", expected " +
               listed(std::vector<std::string>(key.words.begin(), key.words.end()));
    return std::nullopt;
}

} // namespace ebbline::installation
