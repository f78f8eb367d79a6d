// SPDX-License-Identifier: MIT
// Words for keys: the unit in a name, the range, the class.
#include "parts_units.h"

#include "sheet.h"

#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace ebbline::report {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 17> units{{{"v", "V"},
                                                                               {"a", "A"},
                                                                               {"ohm", "Ω"},
                                                                               {"mohm", "mΩ"},
                                                                               {"w", "W"},
                                                                               {"ah", "Ah"},
                                                                               {"m", "m"},
                                                                               {"mm", "mm"},
                                                                               {"mm2", "mm²"},
                                                                               {"cm3", "cm³"},
                                                                               {"s", "s"},
                                                                               {"c", "°C"},
                                                                               {"pct", "%"},
                                                                               {"uf", "µF"},
                                                                               {"uh", "µH"},
                                                                               {"bar", "bar"},
                                                                               {"rpm", "1/min"}}};

} // namespace

std::string_view unitOf(std::string_view key) {
    const std::size_t bar = key.rfind('_');
    const std::string_view last = bar == std::string_view::npos ? "" : key.substr(bar + 1);
    if (last == "rad")
        return last;
    return std::ranges::any_of(units, [&](const auto& unit) { return unit.first == last; })
               ? last
               : std::string_view();
}

std::string_view writtenUnit(std::string_view unit) {
    const auto place = std::ranges::find(units, unit, [](const auto& one) { return one.first; });
    return place == units.end() ? unit : place->second;
}

std::string rangeOf(const installation::Key& key) {
    if (key.type == installation::ValueType::Flag)
        return listed(std::vector<std::string>{"true", "false"}, words(" or "));
    std::vector<std::string> items(key.words.begin(), key.words.end());
    for (const double choice : key.choices)
        items.push_back(fmt::format("{}", choice));
    if (!items.empty())
        return listed(items, words(" or "));
    if (key.type == installation::ValueType::Text)
        return words("text");
    return key.whole ? words("{} to {}, whole", key.min, key.max)
                     : words("{} to {}", key.min, key.max);
}

std::string_view nameOf(installation::KeyClass key_class) {
    switch (key_class) {
    case installation::KeyClass::Drawn:
        return "drawn";
    case installation::KeyClass::Quality:
        return "quality";
    case installation::KeyClass::State:
        return "state";
    }
    return "";
}

std::string_view nameOf(installation::ValueType type) {
    switch (type) {
    case installation::ValueType::Number:
        return "number";
    case installation::ValueType::Flag:
        return "flag";
    case installation::ValueType::Text:
        return "text";
    }
    return "";
}

std::string written(const Value& value) {
    if (const auto* number = std::get_if<double>(&value))
        return fmt::format("{}", *number);
    if (const auto* flag = std::get_if<bool>(&value))
        return *flag ? "true" : "false";
    return std::get<std::string>(value);
}

} // namespace ebbline::report
