// SPDX-License-Identifier: MIT
// A file of cases: [[case]] is a row of the list, [[vary]] a key and its values.
#include "format.h"
#include "parse.h"
#include "reading.h"

#include "ebbline/file.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::file {
namespace {

constexpr std::size_t most_cases = 1000000;
constexpr std::size_t most_listed = 100000;
constexpr double most_steps = 10000;

/// Conditions, variants and set-ups of the scene, by their ids.
void takeWith(Reading& reading, Fields& fields, std::vector<Change>& changes) {
    const toml::node* node = fields.take("with");
    if (node == nullptr)
        return;
    for (const toml::node* element : elements(*node)) {
        const auto id = textOf(*element, "with", reading.problems);
        if (!id)
            continue;
        if (const ChangeSet* named = reading.installation.findChangeSet(*id))
            changes.insert(changes.end(), named->changes.begin(), named->changes.end());
        else
            reading.problems.add(element->source(),
                                 words("no condition, variant or set-up is called '{}'", *id));
    }
}

void readCase(Reading& reading, const toml::table& block, Cases& cases) {
    Fields fields(block, reading.problems);
    ListedCase made{.name = fields.takeText("name")};
    takeWith(reading, fields, made.changes);
    for (Set& change : takeCaseChanges(reading, fields))
        made.changes.emplace_back(std::move(change));
    fields.finish(phrase("unknown key {} in a case"));
    cases.listed.push_back(std::move(made));
}

/// `steps` numbers at equal distances, the ends among them.
std::vector<Value> takeRange(Reading& reading, Fields& fields, const installation::Key& key) {
    const auto from = fields.takeNumber("from", key.min, key.max);
    const auto to = fields.takeNumber("to", key.min, key.max);
    const auto steps = fields.takeNumber("steps", 2, most_steps);
    std::vector<Value> values;
    if (key.type != installation::ValueType::Number || !from || !to || !steps) {
        reading.problems.add(fields.table().source(),
                             words("a variation wants 'values', an array, or for a number 'from', "
                                   "'to' and 'steps'"));
        return values;
    }
    const int last = static_cast<int>(*steps) - 1;
    values.reserve(static_cast<std::size_t>(last) + 1);
    for (int i = 0; i <= last; ++i)
        values.emplace_back(i == last ? *to : *from + (*to - *from) * i / last);
    return values;
}

void readVariation(Reading& reading, const toml::table& block, Cases& cases) {
    Fields fields(block, reading.problems);
    const auto path = fields.requireText("key");
    if (!path)
        return;
    try {
        const auto& key = installation::findTarget(reading.installation, *path);
        Variation made{.path = *path, .values = {}};
        if (const toml::node* node = fields.take("values")) {
            for (const toml::node* element : elements(*node))
                if (const auto value = valueOf(*element, key, reading.problems))
                    made.values.push_back(*value);
        } else {
            made.values = takeRange(reading, fields, key);
        }
        fields.finish(phrase("unknown key {} in a variation"));
        if (!made.values.empty())
            cases.variations.push_back(std::move(made));
        else if (!reading.problems.any())
            reading.problems.add(block.source(), words("a variation without values"));
    } catch (const SceneError& error) {
        reading.problems.add(fields.take("key")->source(), error.problems().front().message);
    }
}

void checkSize(Reading& reading, const Cases& cases) {
    double size = static_cast<double>(std::max<std::size_t>(cases.listed.size(), 1));
    for (const Variation& variation : cases.variations)
        size *= static_cast<double>(variation.values.size());
    if (size > static_cast<double>(most_cases))
        reading.problems.add(1, 1, words("more than {} cases", most_cases));
}

} // namespace

Cases readCasesText(std::string_view text,
                    const std::string& name,
                    const Installation& installation) {
    Problems problems(name, text);
    Cases cases;
    const auto parsed = parse(text, problems);
    if (parsed && fitsFormat(parsed->table, "cases", problems)) {
        const Catalogues none; // nothing is placed here
        Reading reading{.problems = problems, .catalogues = none, .installation = installation};
        Fields top(parsed->table, problems);
        top.skip("ebbline");
        top.skip("what");
        top.eachTable(
            "case",
            [&](const toml::table& block) { readCase(reading, block, cases); },
            most_listed);
        top.eachTable("vary",
                      [&](const toml::table& block) { readVariation(reading, block, cases); });
        top.finish(phrase("unknown key {} in a file of cases"));
        checkSize(reading, cases);
    }
    problems.throwIfAny();
    return cases;
}

Cases readCases(const std::filesystem::path& path, const Installation& installation) {
    return readCasesText(readBytes(path), path.string(), installation);
}

} // namespace ebbline::file
