// SPDX-License-Identifier: MIT
// Undo and redo; edits that cannot be made; texts that end as they like.
#include "nasty.h"
#include "scratch.h"

#include "ebbline/edit.h"
#include "ebbline/error.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

Document documentOf(std::string_view text) {
    return file::readText(text, "boat.toml", catalogues());
}

Edit set(const std::string& path, const Value& value) {
    return Change(Set{path, value});
}

std::string edited(std::string_view text, const Edit& edit) {
    return file::edit(documentOf(text), edit, catalogues()).text;
}

} // namespace

TEST_CASE("every step is undone and redone to the byte", "[edit]") {
    History history(documentOf(nasty::blocks), catalogues());
    std::vector<std::string> texts{history.document().text};
    for (const Edit& edit : {Edit(Change(Remove{"alternator"})),
                             set("joints.condition", "loose"),
                             Edit(Rename{"house", "bank"}),
                             Edit(Retext{"title", "x"}),
                             Edit(Change(Bridge{{"bank", "plus"}, {"fridge", "plus"}}))}) {
        history.edit(edit);
        texts.push_back(history.document().text);
    }
    for (std::size_t i = texts.size() - 1; i > 0; --i) {
        REQUIRE(history.canUndo());
        history.undo();
        CHECK(history.document().text == texts[i - 1]);
        CHECK((history.document().installation == documentOf(texts[i - 1]).installation));
    }
    CHECK_FALSE(history.canUndo());
    history.undo();
    CHECK(history.document().text == nasty::blocks);
    for (std::size_t i = 1; i < texts.size(); ++i) {
        REQUIRE(history.canRedo());
        history.redo();
        CHECK(history.document().text == texts[i]);
    }
    CHECK_FALSE(history.canRedo());
}

TEST_CASE("the edits of one gesture are one step", "[edit]") {
    History history(documentOf(nasty::blocks), catalogues());
    const auto drag = [&](double metres) {
        history.edit(set("twin.length_m", metres), "drag twin");
    };
    history.edit(set("house.charge_pct", 10.0));
    const std::string before = history.document().text;
    for (const double metres : {5.0, 6.0, 7.0})
        drag(metres);
    history.undo();
    CHECK(history.document().text == before);
    history.redo();
    CHECK(history.document().installation.findRun("twin")->length_m == 7);
    history.undo();
    drag(8);
    history.endGesture();
    drag(9); // another drag of the same
    history.undo();
    CHECK(history.document().installation.findRun("twin")->length_m == 8);
    history.undo();
    CHECK(history.document().text == before);
    history.undo();
    CHECK(history.document().text == nasty::blocks);
}

TEST_CASE("steps without a tag never become one", "[edit]") {
    History history(documentOf(nasty::blocks), catalogues());
    history.edit(set("house.charge_pct", 10.0));
    history.edit(set("house.charge_pct", 20.0));
    history.undo();
    CHECK_THAT(history.document().text, Contains("charge_pct = 10\n"));
}

TEST_CASE("an edit behind an undo ends what could be redone; one without effect is no step",
          "[edit]") {
    History history(documentOf(nasty::blocks), catalogues());
    history.edit(set("house.charge_pct", 10.0));
    history.undo();
    history.edit(set("house.charge_pct", 80.0)); // as it is
    CHECK_FALSE(history.canUndo());
    CHECK(history.canRedo());
    history.edit(set("house.charge_pct", 20.0));
    CHECK_FALSE(history.canRedo());
}

TEST_CASE("an edit that leads to no scene is refused and changes nothing", "[edit]") {
    History history(documentOf(nasty::blocks), catalogues());
    history.edit(set("house.charge_pct", 10.0), "drag");
    const std::string before = history.document().text;
    const Installation scene = history.document().installation;
    for (const Edit& edit :
         {set("house.charge_pct", 130.0),               // out of range
          set("main-fuse.rating_a", 16.0),              // no such fuse element
          set("twin.area_mm2", 3.3),                    // no such conductor
          set("fridge.cut_in_v", 9.0),                  // below the cut-out
          set("dots.from.kind", "glue"),                // no such joint
          set("house.charge_pct", "full"),              // no number
          set("hose.charge_pct", 5.0),                  // nobody
          Edit(Change(Remove{"fridge"})),               // judged
          Edit(Change(Remove{"bus"})),                  // runs end there
          Edit(Change(Remove{"main-switch"})),          // an event names it
          Edit(Change(Remove{"freezer-door"})),         // not there
          Edit(Change(Open{"twin.3.to"})),              // no such core
          Edit(Change(Bridge{{"a", "b"}, {"c", "d"}})), // no such terminals
          Edit(Change(Place{Part{.id = "house", .body = Fuse{}}})),
          Edit(Change(Place{Part{.id = "bilge", .body = Fuse{}}})), // a way is called so
          Edit(Change(Place{Part{.id = "Not An Id", .body = Fuse{}}})),
          Edit(Change(Place{Run{.id = "empty"}})),
          Edit(Rename{"house", "twin"}),
          Edit(Retext{"title", "\xC3"}),
          Edit(Clear{"three.awg"})}) {
        CHECK_THROWS_AS(history.edit(edit, "drag"), SceneError);
        CHECK(history.document().text == before);
        CHECK((history.document().installation == scene));
    }
    history.undo();
    CHECK(history.document().text == nasty::blocks);
}

TEST_CASE("what no text can say is refused", "[edit]") {
    Catalogues stated = catalogues();
    stated.parts["fuse"]["measured"] = {{"resistance_mohm", 4.0}};
    const Document document = file::readText(nasty::blocks, "boat.toml", stated);
    const Part fuse{.id = "new", .model = "measured", .body = Fuse{}}; // without a resistance
    CHECK_THROWS_WITH(file::edit(document, Change(Place{fuse}), stated),
                      Contains("no text of a scene says just what this edit means"));
}

TEST_CASE("of several edits all are made or none", "[edit]") {
    const Document document = documentOf(nasty::blocks);
    const std::vector<Edit> edits{set("house.charge_pct", 10.0), set("house.charge_pct", 130.0)};
    CHECK_THROWS_AS(file::edit(document, edits, catalogues()), SceneError);
    CHECK(document.text == nasty::blocks);
    // Neither alone leads to a scene.
    const auto known = catalogues().chassis;
    const std::string other =
        known.begin()->first == "steel-sheet" ? known.rbegin()->first : known.begin()->first;
    const std::vector<Edit> swapped{
        Change(Remove{"hull"}),
        Change(Place{Part{.id = "hull", .body = Chassis{.material = other}}})};
    CHECK_THAT(file::edit(document, swapped, catalogues()).text,
               Contains("id = \"hull\"\nkind = \"chassis\"\nmaterial = \"" + other + "\"\n"));
}

TEST_CASE("a text that ends without a line feed still does", "[edit]") {
    const std::string text = "ebbline = 1\n[[part]]\nid = \"fridge\"\nkind = \"controller\"";
    CHECK(edited(text, set("fridge.retry_s", 30.0)) == text + "\nretry_s = 30");
    const std::string with_fan = edited(text, set("fridge.fan_w", 3.0));
    CHECK(edited(with_fan, Clear{"fridge.fan_w"}) == text + "\n");
    const std::string placed = edited(text, Change(Place{Part{.id = "house", .body = Battery{}}}));
    CHECK(placed == text + "\n\n[[part]]\nid = \"house\"\nkind = \"battery\"");
    CHECK(edited(placed, Change(Remove{"house"})) == text + "\n");
    const std::string returns = nasty::withReturns(text);
    CHECK(edited(returns, set("fridge.retry_s", 30.0)) == returns + "\r\nretry_s = 30");
    const std::string headless = "ebbline = 1\npart = [{ id = \"fridge\", kind = \"controller\" }]";
    CHECK(edited(headless, set("surroundings.ambient_c", 5.0)) ==
          headless + "\n\n[surroundings]\nambient_c = 5");
    CHECK(edited(headless, Change(Bridge{{"fridge", "u"}, {"fridge", "v"}})) ==
          headless + "\n\n[[run]]\nid = \"bridge-1\"\nfrom = \"fridge.u\"\nto = \"fridge.v\"\n"
                     "area_mm2 = 2.5\nlength_m = 0.2\njoint_from = \"clip\"\njoint_to = \"clip\"");
}

TEST_CASE("the last line is exchanged where the text ends without a line feed", "[edit]") {
    const std::string text = "ebbline = 1\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\n"
                             "[[part]]\nid = \"join\"\nkind = \"splice\"\n"
                             "[part.joint_sleeve]\nresistance_mohm = 3";
    CHECK(edited(text, set("join.sleeve.condition", "tired")) ==
          text.substr(0, text.rfind('\n')) + "\ncondition = \"tired\"");
}

TEST_CASE("a mark of byte order and mixed line ends stay", "[edit]") {
    const std::string text =
        "\xEF\xBB\xBF"
        "# [[ \" = {\r\nebbline = 1\r\n[[part]]\nid = \"fridge\"\r\nkind = \"controller\"\n"
        "[x-end]\r\n";
    CHECK(edited(text, set("fridge.retry_s", 30.0)) ==
          "\xEF\xBB\xBF"
          "# [[ \" = {\r\nebbline = 1\r\n[[part]]\nid = \"fridge\"\r\nkind = "
          "\"controller\"\nretry_s = 30\n"
          "[x-end]\r\n");
    CHECK(edited(text, Retext{"title", "T"}) ==
          "\xEF\xBB\xBF"
          "# [[ \" = {\r\nebbline = 1\r\ntitle = \"T\"\r\n[[part]]\nid = \"fridge\"\r\nkind = "
          "\"controller\"\n"
          "[x-end]\r\n");
}

TEST_CASE("a document of a file keeps its path, its catalogues and its name in messages",
          "[edit]") {
    const Scratch scratch;
    const auto write = [&](const char* name, const std::string& text) {
        std::ofstream(scratch.path() / name, std::ios::binary) << text;
    };
    write("own.toml",
          "ebbline = 1\nwhat = \"parts\"\n[[battery]]\nid = \"big\"\nsource = \"a test\"\n"
          "certainty = \"memory\"\ncapacity_ah = 400\n");
    const auto path = scratch.path() / "boat.toml";
    write("boat.toml",
          "ebbline = 1\nuse = [\"own.toml\"]\n[[part]]\nid = \"house\"\nkind = \"battery\"\n"
          "model = \"big\"\ncapacity_ah = 300\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\n");
    const Document document = file::read(path, catalogues());
    const Document cleared = file::edit(document, Clear{"house.capacity_ah"}, catalogues());
    CHECK(cleared.path == path);
    CHECK(std::get<Battery>(cleared.installation.parts[0].body).capacity_ah == 400);
    const Document again = file::edit(cleared, set("house.capacity_ah", 100.0), catalogues());
    CHECK(again.text == document.text.substr(0, document.text.find("300")) + "100" +
                            document.text.substr(document.text.find("300") + 3));
    CHECK_THROWS_WITH(file::edit(document, set("fridge.cut_in_v", 9.0), catalogues()),
                      Contains(path.string() + ":11:"));
}
