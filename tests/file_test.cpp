// SPDX-License-Identifier: MIT
// Scenes: what a good one says, what is said about a bad one.
#include "drawn.h"
#include "scratch.h"

#include "ebbline/error.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace ebbline;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using Catch::Matchers::StartsWith;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

Installation read(const std::string& text) {
    return file::readText(text, "galley.toml", catalogues()).installation;
}

/// What is said about a bad text; empty for a good one.
std::string complaint(const std::string& text) {
    try {
        static_cast<void>(read(text));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "";
}

/// The least that is a scene, and what comes behind it.
std::string scene(const std::string& more) {
    return "ebbline = 1\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\n" + more;
}

std::filesystem::path badScenes() {
    return std::filesystem::path(EBBLINE_SOURCE_DIR) / "tests" / "data" / "bad";
}

void write(const std::filesystem::path& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

const char* const good = R"(ebbline = 1
what = "scene"
title = "Küche der \"Möwe\""
note = """two
lines"""
nominal_v = 24
rules = "small-craft-iso"
subject = "fridge"
x-customer = "free"

[plan]
outline_m = [[0, 0], [8.4, 0], [8.4, 2.6]]
picture = { file = "hull.png", at_m = [0, 0], width_m = 8.4 }
x-scale = 3

[surroundings]
ambient_c = -5

[x-notes]
anything = [1, "two"]

[[part]]
id = "house"
name = "House battery"
note = "port side"
kind = "battery"
model = "wet-lead-200"
nominal_v = 24
charge_pct = 70
temperature_c = 3
at_m = [0.8, -0.6]

[[part]]
id = "main-switch"
kind = "isolator"
resistance_mohm = 2
closed = false

[[part]]
id = "main-fuse"
kind = "fuse"
rating_a = 7.5
holder_mohm = 3
resistance_mohm = 12
blown = true

[[part]]
id = "bus"
kind = "bus-bar"
studs = 6

[[part]]
id = "neg"
kind = "stud"
stack = ["twin.2.from", "house-neg.to"]
face_mohm = 0.4

[[part]]
id = "stat"
kind = "thermostat"
resistance_mohm = 30
closed = false

[[part]]
id = "fridge"
kind = "controller"
model = "small-12-24"
cut_out_v = 10.2
x-serial = 5

[[part]]
id = "freezer"
kind = "controller"

[[run]]
id = "twin"
name = "Twin cable"
note = "white"
from = ["bus.6", "neg.post"]
to = ["fridge.plus", "fridge.minus"]
area_mm2 = 4
route_m = [[0, 0], [0, 3], [4, 3]]
spare_m = 0.5
inductance_uh = 0.7
conductor = ["class-5-tinned", "class-2"]
joint_from = { kind = "ring", condition = "tired" }
joint_to = ["push-on", { kind = "crimp", resistance_mohm = 40 }]

[[run]]
id = "house-neg"
from = "house.minus"
to = "neg.post"
awg = "2/0"
length_m = 0.4

[[run]]
id = "feed"
from = ["house.plus"]
to = ["bus.1"]
sae = 12
length_m = 1

[[run]]
id = "spread-cable"
from = ["bus.2", "bus.3"]
to = ["freezer.plus", "freezer.minus"]
awg = [12, "1/0"]
length_m = 1

[[condition]]
id = "cold-morning"
name = "Cold"
[condition.set]
"twin.2.to.condition" = "corroded"
"surroundings.ambient_c" = -5
"joints.condition" = "tired"
"house.age_pct" = 45

[[event]]
at_s = 3
set = { "stat.closed" = true }

[[event]]
at_s = 0.5
set = { "main-switch.closed" = true }
)";

} // namespace

TEST_CASE("the head of a scene is read", "[file]") {
    const Installation scene = read(good);
    CHECK(scene.title == "Küche der \"Möwe\"");
    CHECK(scene.note == "two\nlines");
    CHECK(scene.nominal_v == 24);
    CHECK(scene.rules == "small-craft-iso");
    CHECK(scene.subject == "fridge");
    CHECK(scene.surroundings == Surroundings{.ambient_c = -5});
}

TEST_CASE("parts are read key by key", "[file]") {
    const Installation scene = read(good);
    REQUIRE(scene.parts.size() == 8);
    CHECK(scene.parts[0] ==
          Part{.id = "house",
               .name = "House battery",
               .note = "port side",
               .model = "wet-lead-200",
               .at_m = Position{0.8, -0.6},
               .body = Battery{
                   .nominal_v = 24, .capacity_ah = 200, .charge_pct = 70, .temperature_c = 3}});
    CHECK(scene.parts[1] ==
          Part{.id = "main-switch", .body = Isolator{.resistance_mohm = 2, .closed = false}});
    CHECK(scene.parts[2] ==
          Part{.id = "main-fuse",
               .body =
                   Fuse{.rating_a = 7.5, .holder_mohm = 3, .resistance_mohm = 12, .blown = true}});
    CHECK(scene.parts[3] == Part{.id = "bus", .body = BusBar{.studs = 6}});
    CHECK(scene.parts[4] ==
          Part{.id = "neg",
               .body = Stud{.stack = {{"twin", "2.from"}, {"house-neg", "to"}}, .face_mohm = 0.4}});
    CHECK(scene.parts[5] ==
          Part{.id = "stat", .body = Thermostat{.resistance_mohm = 30, .closed = false}});
    CHECK(scene.parts[7] == Part{.id = "freezer", .body = Controller{}});
}

TEST_CASE("what stands in the scene overrides the catalogue, which overrides the built-in",
          "[file]") {
    Catalogues marked = catalogues();
    marked.parts["controller"]["small-12-24"] = {{"cut_out_v", 10.8}, {"retry_s", 45.0}};
    const Installation scene = file::readText(good, "galley.toml", marked).installation;
    CHECK(scene.parts[6].model == "small-12-24");
    CHECK(std::get<Controller>(scene.parts[6].body) ==
          Controller{.cut_out_v = 10.2, .retry_s = 45});
}

TEST_CASE("a battery is as warm as its surroundings unless it says otherwise", "[file]") {
    const auto battery = [](const std::string& keys) {
        return std::get<Battery>(
            read(scene("[[part]]\nid = \"house\"\nkind = \"battery\"\n" + keys)).parts[1].body);
    };
    CHECK(battery("").temperature_c == std::nullopt);
    CHECK(battery("temperature_c = 3").temperature_c == 3);
}

TEST_CASE("runs are read core by core", "[file]") {
    const Installation scene = read(good);
    REQUIRE(scene.runs.size() == 4);
    const Joint ring{.kind = "ring", .condition = "tired"};
    CHECK(scene.runs[0] == Run{.id = "twin",
                               .name = "Twin cable",
                               .note = "white",
                               .cores = {{.from = {"bus", "6"},
                                          .to = {"fridge", "plus"},
                                          .size = {SizeScale::Mm2, 4},
                                          .conductor = "class-5-tinned",
                                          .joint_from = ring,
                                          .joint_to = {.kind = "push-on"}},
                                         {.from = {"neg", "post"},
                                          .to = {"fridge", "minus"},
                                          .size = {SizeScale::Mm2, 4},
                                          .conductor = "class-2",
                                          .joint_from = ring,
                                          .joint_to = {.resistance_mohm = 40}}},
                               .route_m = {{0, 0}, {0, 3}, {4, 3}},
                               .spare_m = 0.5,
                               .inductance_uh = 0.7});
    CHECK(scene.runs[0].length() == 7.5);
    CHECK(scene.runs[1] == Run{.id = "house-neg",
                               .cores = {{.from = {"house", "minus"},
                                          .to = {"neg", "post"},
                                          .size = {SizeScale::Awg, -1}}},
                               .length_m = 0.4});
    CHECK(scene.runs[2].cores.size() == 1);
    CHECK(scene.runs[2].cores[0].size == Size{SizeScale::Sae, 12});
    CHECK(scene.runs[3].cores[0].size == Size{SizeScale::Awg, 12});
    CHECK(scene.runs[3].cores[1].size == Size{SizeScale::Awg, 0});
}

TEST_CASE("changes keep the order in which they were written, events that of time", "[file]") {
    const Installation scene = read(good);
    CHECK(scene.conditions ==
          std::vector<ChangeSet>{{.id = "cold-morning",
                                  .name = "Cold",
                                  .changes = {Set{"twin.2.to.condition", "corroded"},
                                              Set{"surroundings.ambient_c", -5.0},
                                              Set{"joints.condition", "tired"},
                                              Set{"house.age_pct", 45.0}}}});
    CHECK(scene.events == std::vector<Event>{{.at_s = 0.5, .set = {{"main-switch.closed", true}}},
                                             {.at_s = 3, .set = {{"stat.closed", true}}}});
    CHECK_NOTHROW(installation::apply(scene, scene.conditions[0].changes));
}

TEST_CASE("a scene may leave out all that has a default", "[file]") {
    const Installation drawn = read(scene(""));
    CHECK(drawn ==
          Installation{.subject = "fridge", .parts = {{.id = "fridge", .body = Controller{}}}});
}

TEST_CASE("line ends and a byte-order mark do not matter", "[file]") {
    std::string turned = "\xef\xbb\xbf";
    for (const char letter : std::string(good))
        turned += letter == '\n' ? "\r\n" : std::string(1, letter);
    Installation read_back = read(turned);
    read_back.note = "two\nlines"; // the only text that spans lines keeps its own line end
    CHECK(read_back == read(good));
}

TEST_CASE("free text holds anything", "[file]") {
    CHECK(read(scene("name = \"x\\n.control\\nshell true\\u0000\\u001b[2J\"")).parts[0].name ==
          "x\n.control\nshell true" + std::string(1, '\0') + "\x1b[2J");
}

TEST_CASE("the document keeps text and path", "[file]") {
    const Scratch scratch;
    const auto path = scratch.path() / "galley.toml";
    write(path, good);
    const Document document = file::read(path, catalogues());
    CHECK(document.path == path);
    CHECK(document.text == good);
    CHECK(document.installation == read(good));
    CHECK(file::readText(good, "galley.toml", catalogues()).path.empty());
}

TEST_CASE("the scene inside the program and those beside it are good", "[file]") {
    CHECK(complaint(std::string(file::embeddedScene())).empty());
    REQUIRE_FALSE(drawn::sceneNames().empty());
    for (const std::string& name : drawn::sceneNames()) {
        INFO(name);
        CHECK_NOTHROW(drawn::scene(name));
    }
}

TEST_CASE("every bad scene is told all that is wrong with it", "[file]") {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(badScenes())) {
        std::filesystem::path path = entry.path();
        if (path.extension() != ".toml")
            continue;
        ++count;
        const std::string name = path.filename().string();
        const std::string text = file::readBytes(path);
        INFO(name);
        std::string said;
        try {
            static_cast<void>(file::readText(text, name, catalogues()));
        } catch (const SceneError& error) {
            said = error.what();
        }
        CHECK(said == file::readBytes(path.replace_extension(".txt")));
    }
    CHECK(count == 21);
}

TEST_CASE("bytes that are no text are refused with their place", "[file]") {
    const std::string nul = "ebbline = 1\nt\xc3\xb6 = \"x" + std::string(1, '\0') + "y\"\n";
    CHECK_THAT(complaint(nul), StartsWith("galley.toml:2:8: a NUL byte\n"));
    CHECK_THAT(complaint("ebbline = 1\ntitle = \"a\xff\"\n"),
               StartsWith("galley.toml:2:10: encountered invalid utf-8 sequence"));
    CHECK_THAT(complaint("ebbline = 1\ntitle = \"\xed\xa0\x80\"\n"),
               StartsWith("galley.toml:2:9: encountered invalid utf-8 sequence"));
    CHECK_THAT(complaint("ebbline = 1\n# \xe2\x82"),
               StartsWith("galley.toml:2:2: encountered EOF"));
}

TEST_CASE("sizes that choke the parser are refused before parsing", "[file]") {
    const std::size_t mib = 1U << 20;
    CHECK(complaint(scene("#" + std::string(65535, 'x') + "\n")).empty());
    CHECK_THAT(complaint(scene("#" + std::string(65536, 'x') + "\n")),
               StartsWith("galley.toml:5:1: the line is longer than 64 KiB\n"));
    std::string large = scene("");
    while (large.size() < 4 * mib)
        large +=
            "# a comment of a hundred letters or so, again and again, until the file is full\n";
    CHECK(complaint(large.substr(0, 4 * mib)).empty());
    CHECK(complaint(large) ==
          "galley.toml:1:1: the file is longer than 4 MiB\n    1 | ebbline = 1\n      | ^\n");
}

TEST_CASE("keys too deep for the parser are refused, wherever they hide", "[file]") {
    const auto key = [](int dots, const std::string& name) {
        std::string text = name;
        for (int i = 0; i < dots; ++i)
            text += "." + name;
        return text;
    };
    const std::string refused = "more than 32 dots in one key";
    CHECK_THAT(complaint(scene("x-a." + key(31, "a") + " = 1\n")), Equals(""));
    CHECK_THAT(complaint(scene("x-a." + key(32, "a") + " = 1\n")),
               StartsWith("galley.toml:5:68: " + refused));
    CHECK_THAT(complaint(scene("[x-a." + key(100000 / 4, "a") + "]\n")), Contains(refused));
    CHECK_THAT(complaint(scene("[[x-a." + key(33, "\"ä\"") + "]]\n")), Contains(refused));
    CHECK_THAT(complaint(scene("x-a = { " + key(33, "'#'") + " = 1 }\n")), Contains(refused));
    // Behind a text that ends with a quote of its own.
    CHECK_THAT(complaint(scene("x-a = [\"\"\"a\"\"\"\", { " + key(33, "a") + " = 1 }]\n")),
               Contains(refused));
    CHECK_THAT(complaint(scene("x-a = '''\n'''\n" + key(33, "\"\\\"\"") + " = 1\n")),
               Contains(refused));
}

TEST_CASE("dots and brackets in texts and comments are free", "[file]") {
    const std::string many = std::string(200, '.') + std::string(200, '[');
    CHECK(complaint(scene("note = \"\\\"" + many + "\" # " + many + "\n" + "name = '" + many +
                          "'\nx-a = \"\"\"\n" + many + "\"\"\"\"\"\nx-b = '''\n''" + many +
                          "'''\n# " + many + "\n"))
              .empty());
}

TEST_CASE("brackets open one in another only so deep", "[file]") {
    const auto nested = [](int depth, const std::string& before, const std::string& after) {
        std::string text = "x-a = ";
        for (int i = 0; i < depth; ++i)
            text += before;
        text += "1";
        for (int i = 0; i < depth; ++i)
            text += after;
        return scene(text + "\n");
    };
    CHECK(complaint(nested(64, "[", "]")).empty());
    CHECK_THAT(complaint(nested(65, "[", "]")),
               StartsWith("galley.toml:5:71: more than 64 brackets open\n"));
    CHECK_THAT(complaint(nested(50000 / 8, "{ a = ", " }")),
               Contains("more than 64 brackets open"));
    CHECK_THAT(complaint(nested(20000, "[\n", "\n]")), Contains("more than 64 brackets open"));
}

TEST_CASE("of a hopeless file only the first hundred problems are told", "[file]") {
    std::string text = scene("");
    for (int i = 0; i < 3000; ++i)
        text += "key-" + std::to_string(i) + " = 1\n";
    try {
        static_cast<void>(read(text));
        FAIL("was read");
    } catch (const SceneError& error) {
        CHECK(error.problems().size() == 101);
        CHECK(error.problems().back().message == "and 2900 more");
    }
}

TEST_CASE("a name of thousands of letters is cut short in its message", "[file]") {
    const std::string said =
        complaint(scene("[[part]]\nid = \"" + std::string(9000, 'x') + "\"\nkind = \"fuse\"\n"));
    CHECK_THAT(said,
               StartsWith("galley.toml:6:6: '" + std::string(60, 'x') + "...' is no id, expected"));
    CHECK(said.size() < 400);
}

TEST_CASE("no damage to a scene makes the reader fail otherwise than by its errors", "[file]") {
    const std::string whole = good;
    const std::string letters = "\"'[]{}=.#\n\\x\x01\xff";
    unsigned refused = 0;
    for (std::size_t i = 0; i < whole.size(); ++i) {
        std::string damaged = whole;
        damaged[i] = letters[i % letters.size()];
        for (const std::string& text : {damaged, whole.substr(0, i), whole.substr(i)})
            refused += complaint(text).empty() ? 0U : 1U;
    }
    CHECK(refused > whole.size());
}

TEST_CASE("a file that cannot be read is an error of the system", "[file]") {
    const Scratch scratch;
    CHECK_THROWS_AS(file::read(scratch.path() / "none.toml", catalogues()), std::system_error);
    CHECK_THROWS_WITH(file::readBytes(scratch.path() / "none.toml"),
                      Contains("none.toml") && Contains("No such file"));
    CHECK_THROWS_AS(file::readBytes(scratch.path()), std::system_error); // a folder
}

TEST_CASE("a file without end is not read for ever", "[file]") {
    CHECK(file::readBytes("/dev/zero").size() < (5U << 20));
}
