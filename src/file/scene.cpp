// SPDX-License-Identifier: MIT
// Scenes: from a text to an installation, with every error of meaning found on the way.
#include "format.h"
#include "reading.h"

#include "ebbline/file.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ebbline::file {
namespace {

using Reader = void (*)(Reading&, const toml::table&);

void readPart(Reading& reading, const toml::table& block) {
    if (auto part = takePart(reading, block))
        reading.installation.parts.push_back(std::move(*part));
}

void readRun(Reading& reading, const toml::table& block) {
    if (auto run = takeRun(reading, block))
        reading.installation.runs.push_back(std::move(*run));
}

// Changes come last: their paths name parts and runs.
constexpr std::array<std::pair<const char*, Reader>, 10> blocks{{{"part", readPart},
                                                                 {"run", readRun},
                                                                 {"way", readWay},
                                                                 {"keep-out", readKeepOut},
                                                                 {"condition", readCondition},
                                                                 {"variant", readVariant},
                                                                 {"setup", readSetup},
                                                                 {"fault", readFault},
                                                                 {"event", readEvent},
                                                                 {"spread", readSpread}}};

constexpr std::array<std::string_view, 3> rule_sets{
    "small-craft-iso", "small-craft-us", "vehicle-and-cabin"};

void readSurroundings(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    reading.installation.surroundings.ambient_c =
        fields.takeNumber(*installation::findKey("surroundings", "ambient_c"))
            .value_or(Surroundings{}.ambient_c);
    fields.finish("[surroundings]");
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
        const bool is_unread =
            reading.ids.contains(subject) && reading.installation.findPart(subject) == nullptr;
        if (std::ranges::find(units, subject) == units.end() && !is_unread)
            reading.problems.addUnknown(
                top.take("subject")->source(), "controller", subject, units);
    } else if (units.size() == 1)
        subject = units.front();
    else if (units.empty() && !reading.has_unread_parts)
        reading.problems.add(1, 1, "no controller is drawn, so there is nothing to start");
    else if (units.size() > 1 && !reading.has_unread_subject)
        reading.problems.add(reading.ids.at(units[1]),
                             "a second controller, 'subject' must say which of " +
                                 std::to_string(units.size()) + " is judged");
}

/// Variants and set-ups must be possible. What else is wrong would only be said again.
void checkChangeSets(Reading& reading) {
    if (reading.problems.any())
        return;
    for (const auto& [id, where] : reading.change_sets)
        try {
            static_cast<void>(installation::apply(reading.installation,
                                                  reading.installation.findChangeSet(id)->changes));
        } catch (const SceneError& error) {
            reading.problems.add(where, error.problems().front().message);
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
                    .has_unread_parts = parsed.lost.contains("part"),
                    .has_unread_subject = parsed.lost.contains("subject")};
    Fields top(parsed.table, problems);
    reading.installation.use = useCatalogues(top, folder, catalogues);
    readHead(reading, top);
    for (const auto& [name, read] : blocks)
        top.eachTable(name, [&](const toml::table& block) { read(reading, block); });
    top.finish("a scene");
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
