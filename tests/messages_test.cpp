// SPDX-License-Identifier: MIT
// What is said about bad scenes, models, changes and edits, in German as in English.
#include "in_german.h"
#include "nasty.h"
#include "scratch.h"

#include "ebbline/edit.h"
#include "ebbline/network.h"

#include <fstream>
#include <functional>

using namespace ebbline;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

void write(const std::filesystem::path& path, std::string_view text) {
    std::ofstream(path, std::ios::binary) << text;
}

Installation boat() {
    Installation boat{.subject = "fridge"};
    boat.parts = {
        {.id = "house", .body = Battery{}},
        {.id = "neg", .body = Stud{}},
        {.id = "volts", .body = Meter{.plus = {"house", "plus"}, .minus = {"neg", "post"}}},
        {.id = "body", .body = Chassis{}},
        {.id = "rear", .body = Bond{.to = "body"}},
        {.id = "fridge", .body = Controller{}}};
    boat.runs = {{.id = "twin",
                  .cores = {{{"house", "plus"}, {"fridge", "plus"}},
                            {{"house", "minus"}, {"fridge", "minus"}}},
                  .length_m = 3}};
    return boat;
}

void checkChange(const Installation& from, const Change& change) {
    checkProblems(
        [&] { static_cast<void>(installation::apply(from, std::vector<Change>{change})); });
}

void checkEdit(const Edit& edit) {
    const Document document = file::readText(nasty::blocks, "boat.toml", catalogues());
    checkProblems([&] { static_cast<void>(file::edit(document, edit, catalogues())); });
}

} // namespace

TEST_CASE("every bad scene is complained of in German at the same places", "[words][file]") {
    const auto folder = std::filesystem::path(EBBLINE_SOURCE_DIR) / "tests" / "data" / "bad";
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".toml")
            continue;
        const std::string name = entry.path().filename().string();
        const std::string text = file::readBytes(entry.path());
        INFO(name);
        count +=
            checkProblems([&] { static_cast<void>(file::readText(text, name, catalogues())); });
    }
    CHECK(count > 180);
}

TEST_CASE("keys, ids and values of a scene are quoted in German as they stand there", "[words]") {
    const auto say = [](const std::string& more) {
        const std::vector<Problem> said = problemsOf([&] {
            static_cast<void>(file::readText(
                "ebbline = 1\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\n" + more,
                "s.toml",
                catalogues()));
        });
        return said.empty() ? "" : said.front().message;
    };
    const ReadingAs reader({.language = "de"});
    CHECK(say("titel = 1\n") == "unbekannter Schlüssel „titel“ in einem Teil der Art „controller“");
    CHECK(say("cut_out_v = 4.5\n") == "„cut_out_v“ ist 4.5, erwartet wird 5 bis 20");
    CHECK(say("model = \"smal-12-24\"\n") ==
          "unbekanntes Modell „smal-12-24“ der Art „controller“, gemeint vielleicht „small-12-24“");
    CHECK(say("[[part]]\nid = \"house\"\nkind = \"battery\"\n"
              "[[condition]]\nid = \"c\"\nset = { \"house.capacity_ah\" = 5 }\n") ==
          "eine Bedingung kann „house.capacity_ah“ nicht ändern, das ist gezeichnet, erwartet wird "
          "ein Schlüssel der Güte oder des Zustands");
    CHECK(say("[[part]\n") == "Lesefehler (Kopf eines Blocks): erwartet wird ']', gefunden: '\\n'");
}

TEST_CASE("a bad catalogue and a bad folder of models are complained of in German", "[words]") {
    const Scratch scratch;
    checkProblems([&] { static_cast<void>(file::readModels(scratch.path())); });
    const std::string head = "ebbline = 1\nwhat = \"parts\"\n";
    const std::string known = "source = \"s\"\ncertainty = \"memory\"\n";
    write(scratch.path() / "a.toml",
          head + "[[conductor]]\nid = \"c\"\n" + known + "[[conductor]]\nid = \"d\"\n" + known +
              "mohm_per_m = [[1], [2, \"x\"], [3, 1], [3, 2]]\n[[conductor]]\nid = \"d\"\n" +
              known +
              "mohm_per_m = [[1, 2]]\n[[joint]]\nkind = \"j\"\ncertainty = "
              "\"sure\"\n[[fuse-element]]\n" +
              known +
              "rating_a = 0\ncolour = 1\n[[fault]]\nid = \"f\"\nname = \"n\"\nof = \"joint\"\n" +
              known + "set = { heat = 1 }\n");
    write(scratch.path() / "b.toml",
          head + "[[current-capacity]]\nid = \"t\"\n" + known +
              "ambient_c = 30\ninsulation_c = [70, 60]\namps = [[1, 2, 3], [1, 2, 3], [4]]\n"
              "[[bundling]]\nid = \"b\"\n" +
              known + "[[fuse-limits]]\nid = \"l\"\n" + known +
              "highest_v = 1\nhighest_a = 1\nbreaking_a = 1\nopens = [[2, 1], [1, 1]]\n");
    write(scratch.path() / "c.toml", "ebbline = 1\nwhat = \"scene\"\n");
    const auto count = checkProblems([&] { static_cast<void>(file::readModels(scratch.path())); });
    CHECK(count > 15);
}

TEST_CASE("a scene's own files are refused in German", "[words]") {
    const Scratch scratch;
    std::filesystem::create_directory(scratch.path() / "folder");
    std::filesystem::create_symlink("/etc/hostname", scratch.path() / "out.toml");
    for (const std::string use : {"\"../a.toml\"", "\"none.toml\"", "\"out.toml\"", "\"folder\""})
        checkProblems([&] {
            static_cast<void>(file::readText(
                "ebbline = 1\nuse = [" + use + "]\n", "s.toml", catalogues(), scratch.path()));
        });
    std::string many;
    for (int i = 0; i < 21; ++i)
        many += "\"a.toml\", ";
    for (const std::string& use : {std::string("5"), "[" + many + "]"})
        checkProblems([&] {
            static_cast<void>(
                file::readText("ebbline = 1\nuse = " + use + "\n", "s.toml", catalogues()));
        });
}

TEST_CASE("limits and what only many can have wrong are told in German", "[words]") {
    std::string keys;
    for (int i = 0; i < 300; ++i)
        keys += "key-" + std::to_string(i) + " = 1\n";
    std::string set;
    for (int i = 0; i < 1001; ++i)
        set += "\"k" + std::to_string(i) + "\" = 1\n";
    std::string ends;
    for (int i = 0; i < 41; ++i)
        ends += "\"a.b\", ";
    std::string events;
    for (int i = 0; i < 1001; ++i)
        events += "[[event]]\nat_s = 1\nset = {}\n";
    for (const std::string& text :
         {keys,
          "[[condition]]\nid = \"c\"\n[condition.set]\n" + set,
          "[[run]]\nid = \"r\"\nfrom = [" + ends + "]\nto = [" + ends + "]\n",
          events,
          "a" + std::string(40, '.') + "\n",
          "a = " + std::string(70, '[') + "\n",
          "#" + std::string(70000, 'x') + "\n",
          std::string(5U << 20, '\n'),
          std::string("a\0", 2)})
        checkProblems([&] {
            static_cast<void>(file::readText("ebbline = 1\n" + text, "s.toml", catalogues()));
        });
}

TEST_CASE("changes that cannot be made are refused in German", "[words]") {
    const Installation whole = boat();
    for (const Change& change : std::vector<Change>{
             Set{"house", 1.0},
             Set{"hose.charge_pct", 1.0},
             Set{"nobody-at-all.charge_pct", 1.0},
             Set{"house.charge", 1.0},
             Set{"house.charge_pct", 130.0},
             Set{"house.charge_pct", true},
             Set{"fridge.nominal_v", 13.0},
             Set{"twin.1.awg", 2.5},
             Set{"twin.1.length_m", 2.0},
             Set{"joints.condition", "rusty"},
             Open{"twin.from"},
             Remove{"hose"},
             Remove{"house"},
             Remove{"fridge"},
             Remove{"body"},
             Bridge{{"house", "plus"}, {"nowhere", "plus"}},
             Place{Part{.id = "house", .body = Fuse{}}},
             Place{Run{.id = "twin", .cores = {{{"house", "plus"}, {"neg", "post"}}}}}})
        checkChange(whole, change);
    Installation stacked = whole;
    std::get<Stud>(stacked.parts[1].body).stack = {{"twin", "1.from"}};
    checkChange(stacked, Bridge{{"house", "plus"}, {"house", "minus"}});
    Installation astray = whole;
    std::get<Meter>(astray.parts[2].body).plus = {"nowhere", "plus"};
    checkChange(astray, Bridge{{"house", "plus"}, {"house", "minus"}});
    Installation drawn_twice = whole;
    drawn_twice.subject = "house";
    checkChange(drawn_twice, Bridge{{"house", "plus"}, {"house", "minus"}});
}

TEST_CASE("edits that cannot be made are refused in German", "[words]") {
    Run bare{.id = "sense"};
    Run stranger{.id = "nowhere", .cores = {{}}};
    for (const Edit& edit : std::vector<Edit>{Clear{"house"},
                                              Clear{"sense.area_mm2"},
                                              Rename{"nowhere", "x"},
                                              Rename{"house", "fridge"},
                                              Rename{"house", "Nö"},
                                              Retext{"house.kind", "x"},
                                              Retext{"title", "\xFF"},
                                              Move{"sense", Position{}},
                                              Move{"house", Position{1e6, 0}},
                                              Reroute{"house", {}},
                                              Amend{bare},
                                              Amend{stranger},
                                              Amend{Part{.id = "nowhere", .body = Fuse{}}},
                                              Amend{Part{.id = "house", .body = Fuse{}}}})
        checkEdit(edit);
    Installation mixed = boat();
    mixed.runs[0].cores[1].size = {SizeScale::Awg, 12};
    checkProblems([&] { static_cast<void>(file::write(mixed)); });
}

TEST_CASE("what no catalogue holds is told in German", "[words]") {
    const auto refuse = [](const std::function<void(Installation&)>& spoil) {
        Installation scene = boat();
        spoil(scene);
        checkProblems([&] { static_cast<void>(network::build(scene, catalogues())); });
    };
    refuse([](Installation& scene) { scene.runs[0].cores[0].joint_from.kind = "glue"; });
    refuse([](Installation& scene) { scene.runs[0].cores[0].joint_from.condition = "rusty"; });
    refuse([](Installation& scene) { scene.runs[0].cores[0].conductor = "wire"; });
    refuse([](Installation& scene) {
        scene.parts.push_back({.id = "fuse", .body = Fuse{.rating_a = 16}});
    });
    refuse([](Installation& scene) { std::get<Chassis>(scene.parts[3].body).material = "wood"; });
}

TEST_CASE("what the parser says is in the table of texts", "[words]") {
    std::size_t count = 0;
    for (const char* text : {"a",
                             "a = ",
                             "a = tru",
                             "a = inq",
                             "a = 1_",
                             "a = 1__2",
                             "a = _1",
                             "a = 01",
                             "a = 1.",
                             "a = 1.x",
                             "a = 1e",
                             "a = 0x",
                             "a = 0xg",
                             "a = 0b2",
                             "a = 0o8",
                             "a = 99999999999999999999",
                             "a = 2020-13-01",
                             "a = 2020-02-30",
                             "a = 2020-2",
                             "a = 12:61:00",
                             "a = 12:00",
                             "a = [1 2]",
                             "a = [,]",
                             "a = {b = 1 c = 2}",
                             "a = {b = 1,}",
                             "a = {,}",
                             "a = {1",
                             "a = \"\\q\"",
                             "a = \"\\uZZZZ\"",
                             "a = \"\\uD800\"",
                             "a = \"\\U00110000\"",
                             "a = \"x\n\"",
                             "a = 'x\n'",
                             "a = \"\"\"x \\ y\"\"\"",
                             "a = '''x",
                             "a = 1 2",
                             "a = 1\na = 2",
                             "a = 1\na.b = 2",
                             "[a]\n[a]",
                             "[a",
                             "[]",
                             "[[a]]\n[a]",
                             "[a] x",
                             "[ [a]]",
                             "a = {}\n[a.b]",
                             "\"\"\"a\"\"\" = 1",
                             "# \x01",
                             "= 1",
                             "a\x01",
                             "a = \x01",
                             "\xff",
                             "a = 1\r2"}) {
        INFO(text);
        count += checkProblems([&] {
            static_cast<void>(
                file::readText(std::string("ebbline = 1\n") + text + "\n", "s.toml", catalogues()));
        });
    }
    CHECK(count >= 52);
}
