// SPDX-License-Identifier: MIT
// Whole scenes written: what is read back is what was written.
#include "drawn.h"
#include "nasty.h"
#include "random_changes.h"

#include "ebbline/error.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

Installation read(std::string_view text) {
    return file::readText(text, "written", catalogues()).installation;
}

/// The scene itself, as soon as its text is one.
Installation throughText(const Installation& scene) {
    return read(file::write(scene));
}

Installation boat() {
    return drawn::loop({});
}

} // namespace

TEST_CASE("every scene reads back as it was written", "[file]") {
    for (const std::string& name : drawn::sceneNames()) {
        INFO(name);
        const Installation scene = drawn::scene(name);
        CHECK((throughText(scene) == scene));
    }
    for (const std::string_view text : {nasty::blocks, nasty::arrays})
        CHECK((throughText(read(text)) == read(text)));
}

TEST_CASE("what is written is written the same again", "[file]") {
    const std::string text = file::write(read(nasty::blocks));
    CHECK(file::write(read(text)) == text);
}

TEST_CASE("a thousand installations changed by chance read back as they were written", "[file]") {
    RandomChanges random(77);
    std::size_t written = 0;
    Installation scene = read(nasty::blocks);
    for (int i = 0; i < 1000; ++i) {
        if (i % 50 == 0)
            scene = read(nasty::blocks);
        std::optional<Installation> changed;
        std::string text;
        try {
            changed = installation::apply(scene, std::vector<Change>{random.next(scene)});
            text = file::write(*changed);
            static_cast<void>(read(text));
        } catch (const SceneError&) {
            continue; // not a scene: a size that is not made, a thing that a variant names
        }
        INFO(text);
        REQUIRE((read(text) == *changed));
        scene = *changed;
        ++written;
    }
    CHECK(written > 700);
}

TEST_CASE("the least is written: the head, then what differs from the defaults", "[file]") {
    Installation scene{.subject = "fridge"};
    scene.parts = {{.id = "fridge", .body = Controller{.retry_s = 30}},
                   {.id = "house", .body = Battery{}}};
    CHECK(file::write(scene) == "ebbline = 1\nwhat = \"scene\"\n\n[[part]]\nid = \"fridge\"\n"
                                "kind = \"controller\"\nretry_s = 30\n\n[[part]]\n"
                                "id = \"house\"\nkind = \"battery\"\n");
}

TEST_CASE("of a part with a model only what differs from it is written", "[file]") {
    Installation scene{.subject = "fridge"};
    scene.parts = {{.id = "fridge", .body = Controller{}},
                   {.id = "house", .model = "wet-lead-200", .body = Battery{.capacity_ah = 200}},
                   {.id = "spare", .model = "wet-lead-200", .body = Battery{.capacity_ah = 100}}};
    const std::string text = file::write(scene);
    CHECK_THAT(text, Contains("kind = \"battery\"\nmodel = \"wet-lead-200\"\n\n"));
    CHECK_THAT(text, Contains("model = \"wet-lead-200\"\ncapacity_ah = 100\n")); // as built in
    CHECK((throughText(scene) == scene));
    Catalogues other = catalogues();
    other.parts["battery"]["wet-lead-200"]["age_pct"] = 10.0;
    const std::string for_other = file::write(scene, other);
    CHECK_THAT(for_other, Contains("age_pct = 0\n"));
    CHECK((file::readText(for_other, "written", other).installation == scene));
}

TEST_CASE("numbers are written as short as they read back exactly", "[file]") {
    const double inf = std::numeric_limits<double>::infinity();
    for (const double value : {0.1,
                               1.0 / 3,
                               5e-324,
                               std::nextafter(1.0, 2.0),
                               -0.0,
                               123456789.0,
                               9007199254740993.0,
                               1e13,
                               1.7976931348623157e308,
                               -2.5e-7}) {
        INFO(value);
        Installation scene = boat();
        scene.spreads = {{.on = "fridge.friction", .law = "normal", .first = 0.1}};
        scene.parts[0].at_m = Position{std::fmod(value, 1000), -std::fmod(value, 1000)};
        CHECK((throughText(scene) == scene));
    }
    Installation scene = boat();
    scene.spreads = {{.on = "fridge.friction", .law = "normal", .first = 0.1, .second = 1e5}};
    CHECK_THAT(file::write(scene), Contains("mean = 0.1\ndeviation = 1e+05\n"));
    CHECK((throughText(scene) == scene));
    scene.spreads[0].second = inf;
    CHECK_THROWS_AS(throughText(scene), SceneError);
    // More digits than a whole number may have: still a number, and refused as too large.
    scene.spreads[0].second = 18446744073709551616.0;
    CHECK_THROWS_WITH(throughText(scene), Contains("expected 0 to"));
}

TEST_CASE("texts of any letters are written so that they read back", "[file]") {
    for (const char* text : {"\"",   "\\",   "'''",          "\"\"\"",     "a\nb",
                             "\n",   "\n\n", "x\"\n\"",      "\"\"\"\n\"", "\t",
                             "\r",   "\r\n", "\x01\x1F\x7F", "\xC2\x85",   "Möwe 冷蔵庫 🐟",
                             "#",    " ",    "\\u0041",      "[[part]]",   "a = 1",
                             "end\\"}) {
        INFO(text);
        Installation scene = boat();
        scene.title = scene.note = text;
        scene.parts[0].name = scene.parts[1].note = scene.runs[0].name = scene.runs[1].note = text;
        CHECK((throughText(scene) == scene));
    }
    Installation scene = boat();
    scene.title = "\xFF";
    CHECK_THROWS_AS(throughText(scene), SceneError);
}

TEST_CASE("a long route, a long stack and many changes stay within the limits of a line",
          "[file]") {
    Installation scene = boat();
    scene.runs[0].length_m.reset();
    scene.runs[0].route_m.clear();
    for (int i = 0; i < 20000; ++i)
        scene.runs[0].route_m.push_back({0.001 * (i % 7), 0.002 * (i % 5)});
    ChangeSet all{.id = "all", .changes = {}};
    for (const auto& key : installation::keys())
        if (key.kind == "controller" && key.key_class != installation::KeyClass::Drawn)
            all.changes.emplace_back(
                Set{"fridge." + std::string(key.name),
                    key.type == installation::ValueType::Flag ? Value(true) : Value(key.max)});
    all.changes.erase(std::remove_if(all.changes.begin(),
                                     all.changes.end(),
                                     [](const Change& change) {
                                         return std::get<Set>(change).path == "fridge.nominal_v";
                                     }),
                      all.changes.end());
    scene.conditions = {all};
    CHECK((throughText(scene) == scene));
    CHECK_THAT(file::write(scene), Contains("\n[condition.set]\n\"fridge.cut_out_v\" = 20\n"));
}

TEST_CASE("a fault says its own keys only, the catalogue the others", "[file]") {
    Installation scene = boat();
    scene.faults = {{.on = "house",
                     .kind = "flat-battery",
                     .set = {{"house.charge_pct", 30.0}, {"house.charge_pct", 12.0}}}};
    const std::string text = file::write(scene);
    CHECK_THAT(text,
               Contains("[[fault]]\non = \"house\"\nkind = \"flat-battery\"\ncharge_pct = 12\n"));
    CHECK((throughText(scene) == scene));
}

TEST_CASE("the subject is written where there is a choice", "[file]") {
    Installation scene = boat();
    CHECK(file::write(scene).find("subject") == std::string::npos);
    scene.parts.push_back({.id = "freezer", .body = Controller{}});
    CHECK_THAT(file::write(scene), Contains("subject = \"fridge\"\n"));
    CHECK((throughText(scene) == scene));
}

TEST_CASE("cores that state their sizes in different ways cannot be written", "[file]") {
    Installation scene = boat();
    Run& run = scene.runs[0];
    run.cores.push_back(run.cores[0]);
    run.cores[1].size = {SizeScale::Awg, 12};
    CHECK_THROWS_WITH(file::write(scene),
                      Contains("the cores of 'first' state their sizes in different ways, "
                               "expected one of area_mm2, awg, sae for all"));
}
