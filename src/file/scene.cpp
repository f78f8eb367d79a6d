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

// Tables and keys of the format that this version does not know how to use.
constexpr std::array later{"fault", "spread", "way", "keep-out", "use"};

using Reader = void (*)(Reading&, const toml::table&);
// Changes come last: their paths name parts and runs.
constexpr std::array<std::pair<const char*, Reader>, 4> blocks{
    {{"part", readPart}, {"run", readRun}, {"condition", readCondition}, {"event", readEvent}}};

void readSurroundings(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    reading.installation.surroundings.ambient_c =
        fields.takeNumber(*installation::findKey("surroundings", "ambient_c"))
            .value_or(Surroundings{}.ambient_c);
    fields.finish("[surroundings]");
}

/// A name below the scene's own folder.
bool isBelow(const std::filesystem::path& name) {
    return name.is_relative() && !name.empty() &&
           std::ranges::none_of(name, [](const auto& step) { return step == ".."; });
}

void checkPicture(Reading& reading, const toml::table& block) {
    constexpr double widest_m = 1000;
    Fields fields(block, reading.problems);
    if (const auto name = fields.requireText("file"); name && !isBelow(*name))
        reading.problems.add(fields.take("file")->source(),
                             inQuotes(*name) + " does not lie below the scene's folder");
    if (const toml::node* at = fields.take("at_m"))
        static_cast<void>(positionOf(*at, reading.problems));
    static_cast<void>(fields.takeNumber("width_m", 0.1, widest_m));
    fields.finish("a picture");
}

/// The plan is for drawing: it is checked, and nothing of it is kept here.
void checkPlan(Reading& reading, const toml::table& block) {
    Fields fields(block, reading.problems);
    if (const toml::node* outline = fields.take("outline_m")) {
        if (outline->as_array() == nullptr || outline->as_array()->size() < 3)
            reading.problems.add(outline->source(),
                                 "'outline_m' wants [[x, y], ...] of three places or more");
        else
            for (const toml::node* place : elements(*outline))
                static_cast<void>(positionOf(*place, reading.problems));
    }
    if (const toml::table* picture = fields.takeTable("picture"))
        checkPicture(reading, *picture);
    fields.finish("[plan]");
}

void readHead(Reading& reading, Fields& top) {
    static constexpr std::array nominal{12.0, 24.0};
    Installation& scene = reading.installation;
    top.skip("ebbline");
    top.skip("what");
    scene.title = top.takeText("title");
    scene.note = top.takeText("note");
    scene.rules = top.takeText("rules");
    scene.subject = top.takeText("subject");
    scene.nominal_v =
        top.takeNumber({.name = "nominal_v", .choices = nominal}).value_or(scene.nominal_v);
    if (const toml::table* block = top.takeTable("surroundings"))
        readSurroundings(reading, *block);
    if (const toml::table* block = top.takeTable("plan"))
        checkPlan(reading, *block);
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
    else if (units.size() > 1)
        reading.problems.add(reading.ids.at(units[1]),
                             "a second controller, 'subject' must say which of " +
                                 std::to_string(units.size()) + " is judged");
}

Installation readScene(const toml::table& table, Problems& problems, const Catalogues& catalogues) {
    Reading reading{.problems = problems, .catalogues = catalogues};
    Fields top(table, problems);
    readHead(reading, top);
    for (const auto& [name, read] : blocks)
        top.eachTable(name, [&](const toml::table& block) { read(reading, block); });
    for (const char* name : later)
        if (top.take(name) != nullptr)
            problems.add(table.find(name)->first.source(),
                         "'" + std::string(name) + "' is not supported yet by this version");
    top.finish("a scene");
    std::ranges::stable_sort(reading.installation.events, {}, &Event::at_s);
    settleSubject(reading, top);
    checkReferences(reading);
    return std::move(reading.installation);
}

} // namespace

Document readText(std::string_view text, const std::string& name, const Catalogues& catalogues) {
    const toml::table table = parse(name, text);
    Problems problems(name, text);
    requireFormat(table, "scene", problems);
    Installation installation = readScene(table, problems, catalogues);
    problems.throwIfAny();
    return {.text = std::string(text), .installation = std::move(installation)};
}

Document read(const std::filesystem::path& path, const Catalogues& catalogues) {
    Document document = readText(readBytes(path), path.string(), catalogues);
    document.path = path;
    return document;
}

} // namespace ebbline::file
