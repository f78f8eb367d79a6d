// SPDX-License-Identifier: MIT
// Small installations drawn in code, and scenes from the repository, for tests.
#include "drawn.h"

#include <algorithm>
#include <filesystem>

namespace ebbline::drawn {
namespace {

Core core(Terminal from, Terminal to, const Loop& loop) {
    const Joint joint{.resistance_mohm = loop.joint_mohm};
    return {.from = std::move(from),
            .to = std::move(to),
            .size = {SizeScale::Mm2, loop.area_mm2},
            .conductor = loop.conductor,
            .joint_from = joint,
            .joint_to = joint};
}

std::filesystem::path scenes() {
    return std::filesystem::path(EBBLINE_SOURCE_DIR) / "scenes";
}

} // namespace

Installation loop(const Loop& loop) {
    // The four conductors: 20 % of the way to the isolator, 30 % to the fuse, the rest to the
    // fridge.
    Installation drawn{.title = "drawn in a test", .subject = "fridge"};
    drawn.parts = {{.id = "house", .body = Battery{.charge_pct = loop.charge_pct}},
                   {.id = "main-switch", .body = Isolator{.resistance_mohm = 1}},
                   {.id = "main-fuse", .body = Fuse{.holder_mohm = 1.3, .resistance_mohm = 4.7}},
                   {.id = "fridge", .body = Controller{}}};
    const auto run = [&](const char* id, Terminal from, Terminal to, double share) {
        drawn.runs.push_back({.id = id,
                              .cores = {core(std::move(from), std::move(to), loop)},
                              .length_m = share * loop.length_m});
    };
    run("first", {"house", "plus"}, {"main-switch", "line"}, 0.2);
    run("second", {"main-switch", "load"}, {"main-fuse", "line"}, 0.3);
    run("third", {"main-fuse", "load"}, {"fridge", "plus"}, 0.5);
    run("return", {"house", "minus"}, {"fridge", "minus"}, 1.0);
    return drawn;
}

Installation feed(const Feed& feed) {
    Installation drawn{.title = "drawn in a test", .subject = "fridge"};
    drawn.parts = {{.id = "house", .body = Battery{.capacity_ah = feed.capacity_ah}},
                   {.id = "main-fuse",
                    .body = Fuse{.rating_a = feed.rating_a,
                                 .holder_mohm = feed.holder_mohm,
                                 .resistance_mohm = feed.element_mohm}},
                   {.id = "fridge", .body = Controller{}}};
    const Joint joint{.resistance_mohm = feed.joint_mohm};
    const auto run = [&](const char* id, Terminal from, Terminal to, Size size, double length_m) {
        drawn.runs.push_back({.id = id,
                              .cores = {{.from = std::move(from),
                                         .to = std::move(to),
                                         .size = size,
                                         .conductor = "class-5",
                                         .joint_from = joint,
                                         .joint_to = joint}},
                              .length_m = length_m});
    };
    run("lead", {"house", "plus"}, {"main-fuse", "line"}, feed.plus, feed.fuse_m);
    run("plus", {"main-fuse", "load"}, {"fridge", "plus"}, feed.plus, feed.length_m);
    run("minus", {"fridge", "minus"}, {"house", "minus"}, feed.minus, feed.fuse_m + feed.length_m);
    return drawn;
}

void addPart(Installation& installation,
             const std::string& id,
             Body body,
             const std::vector<std::pair<Terminal, Terminal>>& cables) {
    installation.parts.push_back({.id = id, .body = std::move(body)});
    for (const auto& [from, to] : cables)
        installation.runs.push_back(
            {.id = id + "-cable-" + std::to_string(installation.runs.size()),
             .cores = {{.from = from, .to = to, .size = {SizeScale::Mm2, 16}}},
             .length_m = 0.1});
}

std::vector<std::string> sceneNames() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(scenes()))
        if (entry.path().extension() == ".toml")
            names.push_back(entry.path().filename().string());
    std::ranges::sort(names);
    return names;
}

Installation scene(const std::string& name) {
    const Installation drawn =
        file::read(scenes() / name, file::embeddedModels().catalogues).installation;
    return installation::apply(drawn, installation::faultChanges(drawn));
}

Run& runOf(Installation& installation, const std::string& id) {
    return *std::ranges::find(installation.runs, id, &Run::id);
}

Controller& unitOf(Installation& installation) {
    return std::get<Controller>(
        std::ranges::find(installation.parts, installation.subject, &Part::id)->body);
}

} // namespace ebbline::drawn
