// SPDX-License-Identifier: MIT
// Scenes: from a text to an installation, with every error of meaning found on the way.
#include "format.h"
#include "reading.h"

#include "ebbline/file.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ebbline::file {
namespace {

struct BlockKind {
    const char* name;
    void (*read)(Reading&, const toml::table&);
    std::size_t most;
};

void readPart(Reading& reading, const toml::table& block) {
    if (auto part = takePart(reading, block))
        reading.installation.parts.push_back(std::move(*part));
}

void readRun(Reading& reading, const toml::table& block) {
    if (auto run = takeRun(reading, block))
        reading.installation.runs.push_back(std::move(*run));
}

// Changes come last: their paths name parts and runs.
constexpr std::array<BlockKind, 10> blocks{{{"part", readPart, 1000},
                                            {"run", readRun, 2000},
                                            {"way", readWay, 1000},
                                            {"keep-out", readKeepOut, 1000},
                                            {"condition", readCondition, 100},
                                            {"variant", readVariant, 100},
                                            {"setup", readSetup, 100},
                                            {"fault", readFault, 100},
                                            {"event", readEvent, 1000},
                                            {"spread", readSpread, 1000}}};

constexpr std::array<std::string_view, 3> rule_sets{
    "small-craft-iso", "small-craft-us", "vehicle-and-cabin"};

void readSurroundings(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    reading.installation.surroundings.ambient_c =
        fields.takeNumber(*installation::findKey("surroundings", "ambient_c"))
            .value_or(Surroundings{}.ambient_c);
    fields.finish(phrase("unknown key {} in {}"), "[surroundings]");
}

void readHead(Reading& reading, Fields& top) {
    static constexpr std::array nominal{12.0, 24.0};
    Installation& scene = reading.installation;
    top.skip("ebbline");
    top.skip("what");
    scene.title = top.takeText("title");
    scene.note = top.takeText("note");
    if (const toml::node* rules = top.take("rules"))
        if (const auto name = valueOf(
                *rules,
                {.name = "rules", .type = installation::ValueType::Text, .words = rule_sets},
                reading.problems))
            scene.rules = std::get<std::string>(*name);
    scene.subject = top.takeText("subject");
    scene.nominal_v =
        top.takeNumber({.name = "nominal_v", .choices = nominal}).value_or(scene.nominal_v);
    if (const toml::table* block = top.takeTable("surroundings"))
        readSurroundings(reading, *block);
    if (const toml::table* block = top.takeTable("plan"))
        readPlan(reading, *block);
}

void settleSubject(Reading& reading, Fields& top) {
    std::vector<std::string> units;
    for (const Part& part : reading.installation.parts)
        if (std::holds_alternative<Controller>(part.body))
            units.push_back(part.id);
    std::string& subject = reading.installation.subject;
    if (!subject.empty()) {
        if (std::ranges::find(units, subject) == units.end() && !reading.unread.contains(subject))
            reading.problems.addUnknown(
                top.take("subject")->source(), phrase("unknown controller {}"), subject, units);
    } else if (units.size() == 1)
        subject = units.front();
    else if (units.empty() && !reading.has_unread_parts)
        reading.problems.add(1, 1, words("no controller is drawn, so there is nothing to start"));
    else if (units.size() > 1 && !reading.has_unread_subject)
        reading.problems.add(
            reading.ids.at(units[1]),
            words("a second controller, 'subject' must say which of {} is judged", units.size()));
}

void checkChanges(Reading& reading,
                  std::span<const Change> changes,
                  const toml::source_region& where) {
    try {
        const Installation changed = installation::apply(reading.installation, changes);
        if (const auto missing = findUncatalogued(changed, reading.catalogues))
            reading.problems.add(where, *missing);
    } catch (const SceneError& error) {
        reading.problems.add(where, error.problems().front().message);
    }
}

/// Variants, set-ups and faults must be possible. What else is wrong would only be said again.
void checkChangeSets(Reading& reading) {
    if (reading.problems.any())
        return;
    const Installation& drawn = reading.installation;
    for (const auto& [id, where] : reading.change_sets)
        checkChanges(reading, drawn.findChangeSet(id)->changes, where);
    for (std::size_t i = 0; i < drawn.faults.size(); ++i) {
        const std::vector<Set>& set = drawn.faults[i].set;
        checkChanges(reading, std::vector<Change>(set.begin(), set.end()), reading.faults[i]);
    }
}

/// Whether enough could be parsed to say what the rest means.
bool isUnderstood(const Parsed& parsed) {
    return std::ranges::none_of(std::array{"ebbline", "what", "use"},
                                [&](const char* key) { return parsed.lost.contains(key); });
}

Installation readScene(const Parsed& parsed,
                       Problems& problems,
                       Catalogues& catalogues,
                       const std::filesystem::path& folder) {
    Reading reading{.problems = problems,
                    .catalogues = catalogues,
                    .ids = {parsed.lost_ids.begin(), parsed.lost_ids.end()},
                    .unread = {},
                    .has_unread_parts = !parsed.lost.empty(),
                    .has_unread_subject = parsed.lost.contains("subject")};
    for (const auto& [id, where] : parsed.lost_ids)
        reading.unread.insert(id);
    Fields top(parsed.table, problems);
    reading.installation.use = useCatalogues(top, folder, catalogues);
    readHead(reading, top);
    for (const BlockKind& kind : blocks)
        top.eachTable(
            kind.name, [&](const toml::table& block) { kind.read(reading, block); }, kind.most);
    top.finish(phrase("unknown key {} in a scene"));
    std::ranges::stable_sort(reading.installation.events, {}, &Event::at_s);
    settleSubject(reading, top);
    checkReferences(reading);
    checkChangeSets(reading);
    return std::move(reading.installation);
}

} // namespace

Document readText(std::string_view text,
                  const std::string& name,
                  const Catalogues& catalogues,
                  const std::filesystem::path& folder) {
    Problems problems(name, text);
    const auto parsed = parse(text, problems);
    Document document{.text = std::string(text), .catalogues = catalogues};
    if (parsed && isUnderstood(*parsed) && fitsFormat(parsed->table, "scene", problems))
        document.installation = readScene(*parsed, problems, document.catalogues, folder);
    problems.throwIfAny();
    return document;
}

Document read(const std::filesystem::path& path, const Catalogues& catalogues) {
    const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
    Document document = readText(readBytes(path), path.string(), catalogues, folder);
    document.path = path;
    return document;
}

} // namespace ebbline::file
