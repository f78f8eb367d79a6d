// SPDX-License-Identifier: MIT
// [[spread]] blocks: one number that is not known for sure.
#include "reading.h"

#include "ebbline/words.h"

#include <array>

namespace ebbline::file {
namespace {

/// A law with the names of its two numbers.
struct LawKeys {
    std::string_view name;
    const char* first;
    const char* second;
};
constexpr std::array<LawKeys, 3> laws{{{"normal", "mean", "deviation"},
                                       {"log-normal", "median", "sigma"},
                                       {"uniform", "low", "high"}}};
constexpr std::array<std::string_view, 3> law_names{"normal", "log-normal", "uniform"};

const LawKeys* takeLaw(Reading& reading, Fields& fields) {
    const auto name = fields.requireText("law");
    if (!name)
        return nullptr;
    for (const LawKeys& law : laws)
        if (law.name == *name)
            return &law;
    reading.problems.addUnknown(fields.take("law")->source(),
                                phrase("unknown law {}"),
                                *name,
                                std::vector<std::string>(law_names.begin(), law_names.end()));
    return nullptr;
}

/// The number that is spread; reports a path that names none.
const installation::Key* takeTarget(Reading& reading, Fields& fields) {
    const auto on = fields.requireText("on");
    if (!on)
        return nullptr;
    const toml::source_region& where = fields.take("on")->source();
    try {
        const installation::Key& key = installation::findTarget(reading.installation, *on);
        if (key.type == installation::ValueType::Number && key.choices.empty())
            return &key;
        reading.problems.add(where, words("{} is no number that can be spread", inQuotes(*on)));
    } catch (const SceneError& error) {
        if (!reading.unread.contains(idOf(*on)))
            reading.problems.add(where, error.problems().front().message);
    }
    return nullptr;
}

} // namespace

void readSpread(Reading& reading, const toml::table& block) {
    constexpr double widest = 1e6;
    Fields fields(block, reading.problems);
    const installation::Key* key = takeTarget(reading, fields);
    const LawKeys* law = takeLaw(reading, fields);
    if (key == nullptr || law == nullptr)
        return; // which numbers are meant is unknown
    for (const char* name : {law->first, law->second})
        if (!block.contains(name))
            reading.problems.add(block.source(), words("the law '{}' wants '{}'", law->name, name));
    const bool is_range = law->name == "uniform";
    const auto first = fields.takeNumber(law->first, key->min, key->max);
    const auto second = is_range ? fields.takeNumber(law->second, key->min, key->max)
                                 : fields.takeNumber(law->second, 0, widest);
    if (is_range && first && second && *first > *second)
        reading.problems.add(fields.take("high")->source(), words("'high' lies below 'low'"));
    if (law->name == "log-normal" && first && *first <= 0)
        reading.problems.add(fields.take("median")->source(),
                             words("'median' is 0, expected more"));
    Spread spread{.on = fields.takeText("on"),
                  .law = std::string(law->name),
                  .first = first.value_or(0),
                  .second = second.value_or(0)};
    fields.finish(phrase("unknown key {} in a spread"));
    reading.installation.spreads.push_back(std::move(spread));
}

} // namespace ebbline::file
