// SPDX-License-Identifier: MIT
// Whether a value is one that a key may have, and what it should have been.
#include "ebbline/keys.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

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
        out += (i == 0 ? "" : i + 1 == names.size() ? words(" or ") : ", ") + names[i];
    return out;
}

std::string noSuchNumber(const Key& key, double value, std::string_view name) {
    if (key.choices.empty())
        return words(key.whole ? phrase("{} is {}, expected a whole number from {} to {}")
                               : phrase("{} is {}, expected {} to {}"),
                     name,
                     plain(value),
                     plain(key.min),
                     plain(key.max));
    std::vector<std::string> names;
    for (const double choice : key.choices)
        names.push_back(plain(choice));
    return words("{} is {}, expected {}", name, plain(value), listed(names));
}

bool fits(const Key& key, double value) {
    if (!key.choices.empty())
        return std::ranges::find(key.choices, value) != key.choices.end();
    // Comparisons with nan are false.
    return value >= key.min && value <= key.max && (!key.whole || value == std::round(value));
}

} // namespace

std::optional<std::string> findMisfit(const Key& key, const Value& value, std::string_view name) {
    static constexpr std::array wanted{phrase("{} wants a number"),
                                       phrase("{} wants true or false"),
                                       phrase("{} wants a text in quotes")};
    const auto type = static_cast<std::size_t>(key.type);
    if (value.index() != type)
        return words(wanted.at(type), name);
    const auto* number = std::get_if<double>(&value);
    if (number != nullptr && !fits(key, *number))
        return noSuchNumber(key, *number, name);
    const auto* word = std::get_if<std::string>(&value);
    if (word != nullptr && !key.words.empty() &&
        std::ranges::find(key.words, *word) == key.words.end())
        return words("{} is {}, expected {}",
                     name,
                     text::inQuotes(*word),
                     listed(std::vector<std::string>(key.words.begin(), key.words.end())));
    return std::nullopt;
}

} // namespace ebbline::installation
