// SPDX-License-Identifier: MIT
// Edits of a text, byte for byte.
#include "nasty.h"

#include "ebbline/edit.h"
#include "ebbline/error.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

Document documentOf(std::string_view text) {
    return file::readText(text, "boat.toml", catalogues());
}

std::string edited(std::string_view text, const std::vector<Edit>& edits) {
    return file::edit(documentOf(text), edits, catalogues()).text;
}

std::string edited(std::string_view text, const Edit& edit) {
    return edited(text, std::vector<Edit>{edit});
}

std::string refusal(std::string_view text, const Edit& edit) {
    try {
        static_cast<void>(edited(text, edit));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "accepted";
}

Edit set(const std::string& path, const Value& value) {
    return Change(Set{path, value});
}

/// The text with the one place where `old` stands saying something else.
std::string with(std::string_view text, std::string_view old, std::string_view other) {
    const std::size_t at = text.find(old);
    REQUIRE(at != std::string_view::npos);
    REQUIRE(text.find(old, at + 1) == std::string_view::npos);
    std::string changed(text);
    return changed.replace(at, old.size(), other);
}

const char* const boat = R"(# Try: nothing
ebbline = 1
title = "Boat"

# The battery
# behind the steps
[[part]]
id = "house"
kind = "battery"
charge_pct = 80   # measured
at_m = [1, 2]

[[part]]
  id = "fridge"
  kind = "controller"
  # quiet

[[run]]
id = "plus"
from = "house.plus"
to = "fridge.plus"
awg = 10 # thick
length_m = 2.0
joint_from = { kind = "ring", resistance_mohm = 3 } # clean

[[run]]
id = "minus"
from = ["house.minus", "house.minus"]
to = ["fridge.minus", "fridge.call"]
area_mm2 = 6
length_m = 2
joint_to = "ring"

# the end
)";

} // namespace

TEST_CASE("a value is replaced where it stands", "[edit]") {
    CHECK(edited(boat, set("house.charge_pct", 55.5)) ==
          with(boat, "charge_pct = 80   #", "charge_pct = 55.5   #"));
    CHECK(edited(boat, set("plus.length_m", 3.0)) == with(boat, "length_m = 2.0", "length_m = 3"));
}

TEST_CASE("the same value again changes no byte", "[edit]") {
    for (const Edit& edit : {set("house.charge_pct", 80.0),
                             set("plus.length_m", 2.0),
                             set("house.age_pct", 0.0),
                             set("joints.connected", true),
                             Edit(Retext{"title", "Boat"}),
                             Edit(Move{"house", Position{1, 2}}),
                             Edit(Clear{"house.age_pct"})})
        CHECK(edited(boat, edit) == boat);
}

TEST_CASE("a new key goes behind the last one of its block, indented as that is", "[edit]") {
    CHECK(edited(boat, set("house.age_pct", 40.0)) ==
          with(boat, "at_m = [1, 2]\n", "at_m = [1, 2]\nage_pct = 40\n"));
    CHECK(edited(boat, set("fridge.retry_s", 30.0)) ==
          with(boat, "\"controller\"\n", "\"controller\"\n  retry_s = 30\n"));
    CHECK(edited(boat, set("minus.2.from.condition", "tired")) ==
          with(boat,
               "joint_to = \"ring\"\n",
               "joint_to = \"ring\"\n"
               "joint_from = [\"crimp\", { kind = \"crimp\", condition = \"tired\" }]\n"));
}

TEST_CASE("a joint's new condition takes out what was measured", "[edit]") {
    CHECK(edited(boat, set("plus.from.condition", "loose")) ==
          with(boat,
               "{ kind = \"ring\", resistance_mohm = 3 }",
               "{ kind = \"ring\", condition = \"loose\" }"));
    CHECK(edited(boat, set("plus.from.condition", "new")) ==
          with(boat, "{ kind = \"ring\", resistance_mohm = 3 }", "{ kind = \"ring\" }"));
}

TEST_CASE("a size in another scale takes the place of the one that was there", "[edit]") {
    CHECK(edited(boat, set("plus.area_mm2", 4.0)) ==
          with(boat, "awg = 10 # thick", "area_mm2 = 4 # thick"));
    CHECK(edited(boat, set("plus.awg", -1.0)) ==
          with(boat, "awg = 10 # thick", "awg = \"2/0\" # thick"));
    CHECK(edited(boat, set("minus.sae", 12.0)) == with(boat, "area_mm2 = 6", "sae = 12"));
    CHECK_THAT(refusal(boat, set("minus.1.awg", 10.0)),
               Contains("the cores of 'minus' state their sizes in different ways"));
}

TEST_CASE("one value for all cores becomes an array when one core is changed", "[edit]") {
    CHECK(edited(boat, set("minus.2.area_mm2", 2.5)) ==
          with(boat, "area_mm2 = 6", "area_mm2 = [6, 2.5]"));
    CHECK(edited(boat, set("minus.1.to.kind", "screw")) ==
          with(boat, "joint_to = \"ring\"", "joint_to = [\"screw\", \"ring\"]"));
    CHECK(edited(boat, Change(Open{"minus.1.to"})) ==
          with(boat,
               "joint_to = \"ring\"",
               "joint_to = [{ kind = \"ring\", connected = false }, \"ring\"]"));
}

TEST_CASE("what else a joint's table holds stays when it becomes one of an array", "[edit]") {
    const std::string text = edited(nasty::blocks, set("twin.2.from.condition", "loose"));
    CHECK_THAT(text,
               Contains("joint_from = [{ kind = \"ring\", condition = \"tired\", "
                        "x-more = { b = 2 } },"));
    CHECK(text.find("[run.joint_from]\nkind = \"ring\" # both") == std::string::npos);
}

TEST_CASE("a group word edits every one", "[edit]") {
    const std::string text = edited(boat, set("joints.condition", "tired"));
    CHECK_THAT(text, Contains("{ kind = \"ring\", condition = \"tired\" } # clean"));
    CHECK_THAT(text, Contains("joint_to = { kind = \"ring\", condition = \"tired\" }\n"));
    for (const Run& run : documentOf(text).installation.runs)
        for (const Core& core : run.cores)
            CHECK((core.joint_from.condition + core.joint_to.condition) == "tiredtired");
    CHECK(
        edited(boat, set("runs.length_m", 5.0)) ==
        with(with(boat, "length_m = 2.0\n", "length_m = 5\n"), "length_m = 2\n", "length_m = 5\n"));
}

TEST_CASE("the surroundings get a block where they had none", "[edit]") {
    CHECK(edited(boat, set("surroundings.ambient_c", -5.0)) ==
          with(boat, "title = \"Boat\"\n", "title = \"Boat\"\n\n[surroundings]\nambient_c = -5\n"));
    CHECK(edited(nasty::blocks, set("surroundings.ambient_c", 3.0)) ==
          with(nasty::blocks, "ambient_c = 18.50 #", "ambient_c = 3 #"));
}

TEST_CASE("a bridge and a part are placed behind the last of their kind", "[edit]") {
    CHECK(edited(boat, Change(Bridge{{"house", "plus"}, {"fridge", "lamp"}})) ==
          with(boat,
               "joint_to = \"ring\"\n",
               "joint_to = \"ring\"\n\n[[run]]\nid = \"bridge-1\"\nfrom = \"house.plus\"\n"
               "to = \"fridge.lamp\"\narea_mm2 = 2.5\nlength_m = 0.2\n"
               "joint_from = \"clip\"\njoint_to = \"clip\"\n"));
    const Part fuse{.id = "fuse-a", .name = "a \"b\"", .at_m = Position{}, .body = Fuse{}};
    CHECK(edited(boat, Change(Place{fuse})) ==
          with(boat,
               "  # quiet\n",
               "  # quiet\n\n[[part]]\nid = \"fuse-a\"\nname = \"a \\\"b\\\"\"\nkind = \"fuse\"\n"
               "at_m = [0, 0]\n"));
}

TEST_CASE("with a second controller the text says which is judged", "[edit]") {
    const Part freezer{.id = "freezer", .body = Controller{}};
    const std::string text = edited(boat, Change(Place{freezer}));
    CHECK_THAT(text, Contains("title = \"Boat\"\nsubject = \"fridge\"\n"));
    CHECK(documentOf(text).installation.subject == "fridge");
}

TEST_CASE("a block goes with the comment lines directly above it", "[edit]") {
    const std::string loose = edited(boat, Change(Remove{"plus"}));
    const std::string runs_begin = "[[run]]\nid = \"plus\"";
    const std::size_t first = std::string_view(boat).find(runs_begin);
    const std::size_t second = std::string_view(boat).find("[[run]]\nid = \"minus\"");
    CHECK(loose == std::string(boat).erase(first, second - first));
    const std::string alone = edited(loose, Change(Remove{"minus"}));
    CHECK_THAT(alone, Contains("  # quiet\n\n# the end\n"));
    const std::string bare = edited(alone, Change(Remove{"house"}));
    CHECK(bare == "# Try: nothing\nebbline = 1\ntitle = \"Boat\"\n\n[[part]]\n  id = \"fridge\"\n"
                  "  kind = \"controller\"\n  # quiet\n\n# the end\n");
    CHECK_THAT(
        edited(bare,
               Change(Place{Run{
                   .id = "own", .cores = {{{"fridge", "u"}, {"fridge", "v"}}}, .length_m = 1}})),
        Contains("  # quiet\n\n[[run]]\nid = \"own\"\n"));
}

TEST_CASE("a block goes with its sub-tables, a lug with its run", "[edit]") {
    const Document before = documentOf(nasty::blocks);
    Part neg = *before.installation.findPart("neg");
    std::get<Stud>(neg.body).stack.pop_back();
    const std::vector<Edit> edits{Amend{neg}, Change(Remove{"sense"}), Change(Remove{"socket"})};
    const std::string text = edited(nasty::blocks, edits);
    std::string wanted = with(nasty::blocks, "\t'sense.from' # top\n", "");
    const auto cut = [&](std::string_view from, std::string_view to) {
        const std::size_t begin = wanted.find(from);
        wanted.erase(begin, wanted.find(to) - begin);
    };
    cut("[[part]]\nid = \"socket\"", "[[part]]\nid = \"board\"");
    cut("[[run]]\nid = \"sense\"", "[[run]]\nid = \"three\"");
    CHECK(text == wanted);
    CHECK_THAT(refusal(nasty::blocks, Change(Remove{"sense"})), Contains("the stack of 'neg'"));
}

TEST_CASE("a run is amended end by end", "[edit]") {
    Run twin = *documentOf(nasty::blocks).installation.findRun("twin");
    twin.cores[1].to = {"bus", "4"};
    CHECK(edited(nasty::blocks, Amend{twin}) ==
          with(nasty::blocks, "  \"fridge.minus\"\n", "  \"bus.4\"\n"));
    Run plus = *documentOf(boat).installation.findRun("plus");
    plus.cores.push_back({.from = {"house", "minus"},
                          .to = {"fridge", "minus"},
                          .size = {SizeScale::Awg, 10},
                          .joint_from = {.kind = "clip"}});
    CHECK(edited(boat, Amend{plus}) ==
          with(with(with(boat, "from = \"house.plus\"", "from = [\"house.plus\", \"house.minus\"]"),
                    "to = \"fridge.plus\"",
                    "to = [\"fridge.plus\", \"fridge.minus\"]"),
               "joint_from = { kind = \"ring\", resistance_mohm = 3 }",
               "joint_from = [{ kind = \"ring\", resistance_mohm = 3 }, \"clip\"]"));
    plus.cores.clear();
    CHECK_THAT(refusal(boat, Amend{plus}), Contains("no core"));
    plus.id = "other";
    CHECK_THAT(refusal(boat, Amend{plus}), Contains("no run is called 'other'"));
    CHECK_THAT(refusal(boat, Amend{Part{.id = "house", .body = Fuse{}}}),
               Contains("of kind battery"));
}

TEST_CASE("a part gets another model, and what it said itself stays so", "[edit]") {
    Part house = *documentOf(nasty::blocks).installation.findPart("house");
    house.model = "wet-lead-200";
    std::get<Battery>(house.body).capacity_ah = 200;
    CHECK(edited(nasty::blocks, Amend{house}) ==
          with(nasty::blocks, "\"wet-lead-100\"", "\"wet-lead-200\""));
    std::get<Battery>(house.body).capacity_ah = 100;
    CHECK_THAT(edited(nasty::blocks, Amend{house}), Contains("\t\t0.6 ]\n\tcapacity_ah = 100\n"));
    house.model = "of-nobody";
    CHECK_THAT(refusal(nasty::blocks, Amend{house}), Contains("unknown battery model"));
}

TEST_CASE("inline tables in an array are added and removed", "[edit]") {
    const std::string arrays =
        with(nasty::arrays, "event = [ { at_s = 1, set = { \"socket.mated\" = false } } ]\n", "");
    const std::string without = edited(arrays, Change(Remove{"socket"}));
    CHECK(without == with(with(arrays, "  # sockets\n", ""),
                          "  {id=\"socket\",kind=\"plug\",joint_plus={},"
                          "joint_minus.condition=\"tired\"}, # and so on\n",
                          ""));
    CHECK(edited(arrays, Change(Remove{"b"})) ==
          with(arrays,
               ", { id = \"b\", from = \"fuse-a.load\", to = \"fuse-b.line\", area_mm2 = 6, "
               "length_m = 1, joint_to.kind = \"ring\" }",
               ""));
    CHECK(edited(arrays, Change(Place{Part{.id = "x", .body = Splice{}}})) ==
          with(arrays,
               "     2 ] } # no comma\n",
               "     2 ] }, # no comma\n  { id = \"x\", kind = \"splice\" }\n"));
    CHECK(edited(arrays, set("socket.minus.condition", "new")) ==
          with(arrays, "joint_minus.condition=\"tired\"", "joint_minus.condition=\"new\""));
    CHECK(edited(arrays, set("b.to.condition", "loose")) ==
          with(arrays,
               "joint_to.kind = \"ring\"",
               "joint_to.kind = \"ring\", joint_to.condition = \"loose\""));
    CHECK(edited(arrays, set("socket.plus.connected", false)) ==
          with(arrays, "joint_plus={}", "joint_plus={ connected = false }"));
    const std::vector<Edit> all{Change(Remove{"a"}), Change(Remove{"b"}), Change(Remove{"c"})};
    CHECK(edited(arrays, all).find("run") == std::string::npos);
}

TEST_CASE("a panel's ways keep what is said of each", "[edit]") {
    const std::string more = edited(nasty::blocks, set("board.ways", 7.0));
    CHECK_THAT(more, Contains("\ttrue, true, true, true, # rest\n]"));
    const std::string fewer = edited(nasty::blocks, set("board.ways", 4.0));
    CHECK_THAT(fewer, Contains("\tfalse,\n\ttrue, # rest\n]"));
    CHECK(edited(nasty::blocks, set("board.3.closed", true)) ==
          with(nasty::blocks, "\tfalse,\n", "\ttrue,\n"));
    CHECK_THAT(edited(nasty::blocks, set("board.2.resistance_mohm", 9.0)),
               Contains("resistance_mohm = [2.50, 9, 2.50, 2.50, 2.50, 2.50] # all"));
}

TEST_CASE("a cleared key is taken out, also where it said nothing else than the default",
          "[edit]") {
    CHECK(edited(boat, Clear{"house.charge_pct"}) ==
          with(boat, "charge_pct = 80   # measured\n", ""));
    CHECK(edited(boat, Clear{"plus.from.resistance_mohm"}) ==
          with(boat, "{ kind = \"ring\", resistance_mohm = 3 }", "{ kind = \"ring\" }"));
    CHECK(edited(boat, Clear{"plus.from.kind"}) ==
          with(boat, "{ kind = \"ring\", resistance_mohm = 3 }", "{ resistance_mohm = 3 }"));
    CHECK(edited(boat, Clear{"minus.1.to.kind"}) ==
          with(boat, "joint_to = \"ring\"", "joint_to = [\"crimp\", \"ring\"]"));
    CHECK(edited(boat, Clear{"joints.kind"}) ==
          with(with(boat, "{ kind = \"ring\", resistance_mohm = 3 }", "{ resistance_mohm = 3 }"),
               "joint_to = \"ring\"\n",
               ""));
    CHECK(edited(nasty::blocks, Clear{"main-fuse.holder_mohm"}) ==
          with(nasty::blocks, "\"holder_mohm\" = 2.0\n", ""));
    CHECK(edited(nasty::blocks, Clear{"surroundings.ambient_c"}) ==
          with(nasty::blocks, "surroundings.ambient_c = 18.50 # by dots\n", ""));
    CHECK(edited(nasty::blocks, Clear{"board.closed"}).find("closed = [") == std::string::npos);
    CHECK(edited(nasty::blocks, Clear{"sense.from.connected"}) ==
          with(nasty::blocks, ", connected = true }", " }"));
    CHECK(edited(nasty::blocks, Clear{"fridge.cut_out_v"}) ==
          with(nasty::blocks, "cut_out_v = 10.2\n", ""));
}

TEST_CASE("a key that has to be there is not cleared", "[edit]") {
    CHECK_THAT(refusal(boat, Clear{"plus.length_m"}), Contains("wants 'length_m' or 'route_m'"));
    CHECK_THAT(refusal(boat, Clear{"plus.awg"}), Contains("a run wants a size"));
    CHECK_THAT(refusal(boat, Clear{"hose.awg"}), Contains("nothing is called 'hose'"));
    CHECK_THAT(refusal(boat, Clear{"house"}), Contains("names no key"));
}

TEST_CASE("every id can be renamed, everything that names it follows, and back again to the byte",
          "[edit]") {
    for (const std::string_view text : {std::string_view(boat), nasty::blocks, nasty::arrays}) {
        const Document before = documentOf(text);
        std::vector<std::string> ids;
        for (const Part& part : before.installation.parts)
            ids.push_back(part.id);
        for (const Run& run : before.installation.runs)
            ids.push_back(run.id);
        for (const ChangeSet& set : before.installation.setups)
            ids.push_back(set.id);
        for (const Way& way : before.installation.ways)
            ids.push_back(way.id);
        for (const std::string& id : ids) {
            INFO(id);
            const Document there = file::edit(before, Rename{id, "quite-new"}, catalogues());
            const std::string written = file::write(there.installation);
            CHECK(written.find("\"" + id + "\"") == std::string::npos);
            CHECK(written.find("\"" + id + ".") == std::string::npos);
            CHECK(written.find("\"quite-new") != std::string::npos);
            const Document back = file::edit(there, Rename{"quite-new", id}, catalogues());
            CHECK(back.text == text);
            CHECK((back.installation == before.installation));
        }
    }
}

TEST_CASE("renaming touches what is named, not what only looks like it", "[edit]") {
    const std::string text = edited(nasty::blocks, Rename{"house", "domestic"});
    CHECK_THAT(text, Contains("x-free = { \"house\" = \"house.plus\""));
    CHECK_THAT(text, Contains("where = \"house.plus\""));
    CHECK_THAT(text, Contains("x-when = \"house\""));
    CHECK_THAT(text, Contains("# Batterie: house\n"));
    CHECK_THAT(text, Contains("id = \"house-neg\""));
    CHECK_THAT(text, Contains("from = \"domestic.minus\""));
    CHECK_THAT(text, Contains("set.\"domestic.charge_pct\" = 30"));
    CHECK_THAT(text, Contains("[\"domestic.plus\", \"fridge.plus\"]"));
    CHECK_THAT(text, Contains("to = \"domestic.minus\"\narea_mm2 = 6")); // placed by a variant
    CHECK_THAT(text, Contains("on = \"domestic.charge_pct\""));
    const std::string stat = edited(nasty::blocks, Rename{"stat", "cold-switch"});
    CHECK_THAT(stat, Contains("remove = [\"cold-switch\"]\npart = [ { id = \"cold-switch\""));
    CHECK_THAT(edited(with(boat, "\"house\"", "\"ho\\u0075se\""), Rename{"house", "bank"}),
               Contains("id = \"bank\""));
}

TEST_CASE("an id that is taken, unknown or none is refused", "[edit]") {
    CHECK_THAT(refusal(boat, Rename{"house", "fridge"}), Contains("the id 'fridge' is taken"));
    CHECK_THAT(refusal(nasty::blocks, Rename{"house", "extra-lead"}), Contains("is taken"));
    CHECK_THAT(refusal(nasty::blocks, Rename{"house", "bilge"}), Contains("is taken"));
    CHECK_THAT(refusal(boat, Rename{"hull", "boat"}), Contains("nothing is called 'hull'"));
    CHECK_THAT(refusal(boat, Rename{"house", "9"}), Contains("is no id"));
    CHECK_THAT(refusal(boat, Rename{"house", ""}), Contains("is no id"));
    CHECK_THAT(refusal(boat, Rename{"house", "fuse"}), Contains("is a word of the format"));
    CHECK_THAT(refusal(boat, Rename{"house", "a\"\nx-b = \"c"}), Contains("is no id"));
}

TEST_CASE("free text is set, put in and taken out", "[edit]") {
    CHECK(edited(boat, Retext{"title", "C:\\ \"x\"\t"}) ==
          with(boat, "title = \"Boat\"", "title = \"C:\\\\ \\\"x\\\"\\t\""));
    CHECK(edited(boat, Retext{"fridge.name", "Küche"}) ==
          with(boat, "  kind = \"controller\"\n", "  kind = \"controller\"\n  name = \"Küche\"\n"));
    CHECK(edited(boat, Retext{"title", ""}) == with(boat, "title = \"Boat\"\n", ""));
    CHECK(edited(nasty::blocks, Retext{"bilge.name", "Keel"}) ==
          with(nasty::blocks, "name = \"Bilge\"", "name = \"Keel\""));
    CHECK(edited(nasty::blocks, Retext{"cold.name", "Frost"}) ==
          with(nasty::blocks, "name = \"Cold\"", "name = \"Frost\""));
    CHECK(documentOf(edited(nasty::blocks, Retext{"engine.name", "Motor"}))
              .installation.keep_outs[0]
              .name == "Motor");
    CHECK_THAT(refusal(boat, Retext{"house.kind", "fuse"}), Contains("is no free text"));
    CHECK_THAT(refusal(boat, Retext{"hous.name", "x"}), Contains("is no free text"));
    CHECK_THAT(refusal(boat, Retext{"title", "\xFF"}), Contains("utf-8"));
}

TEST_CASE("a text of any letters reads back as it was meant", "[edit]") {
    for (const std::string& text : {std::string("a\nb"),
                                    std::string("\"\"\"\n\"\"\"\"\""),
                                    std::string("\n"),
                                    std::string("ends with\na \""),
                                    std::string("one\r\ntwo\\\n  three\x7F\x01\n"),
                                    std::string("[[part]]\nid = \"x\"\n'''"),
                                    std::string(10000, 'x'),
                                    std::string(10000, '"')}) {
        for (const std::string& scene : {std::string(boat), nasty::withReturns(boat)}) {
            const std::string after = edited(scene, Retext{"house.note", text});
            CHECK(documentOf(after).installation.parts[0].note == text);
            const bool is_mixed =
                scene.find('\r') != std::string::npos &&
                std::ranges::count(after, '\r') != std::ranges::count(after, '\n');
            CHECK_FALSE(is_mixed);
            // What stands behind that text is found where it is.
            CHECK(edited(after, Retext{"house.note", "plain"}) ==
                  edited(scene, Retext{"house.note", "plain"}));
        }
        const std::string in_array = edited(nasty::arrays, Retext{"house.note", text});
        CHECK(documentOf(in_array).installation.parts[0].note == text);
    }
}

TEST_CASE("a part is moved, a run rerouted", "[edit]") {
    CHECK(edited(boat, Move{"house", Position{-0.25, 1e-3}}) ==
          with(boat, "[1, 2]", "[-0.25, 0.001]"));
    CHECK(edited(boat, Move{"house", std::nullopt}) == with(boat, "at_m = [1, 2]\n", ""));
    CHECK(edited(boat, Move{"fridge", Position{3, 4}}) ==
          with(boat, "\"controller\"\n", "\"controller\"\n  at_m = [3, 4]\n"));
    CHECK(edited(nasty::blocks, Reroute{"sense", {{0, 0}, {1, 3}, {4, 3}}}) ==
          with(nasty::blocks, "[0, 3], # bend", "[1, 3], # bend"));
    CHECK(edited(nasty::blocks, Reroute{"sense", {{0, 0}, {0, 3}, {4, 3}, {5, 5}}}) ==
          with(nasty::blocks, "  [4, 3]]", "  [4, 3],\n  [5, 5]]"));
    CHECK(edited(nasty::blocks, Reroute{"bilge", {{0, 1}, {4, 0}}}) ==
          with(nasty::blocks, "\nline_m = [[0, 0],", "\nline_m = [[0, 1],"));
    CHECK(edited(nasty::blocks, Reroute{"engine", {{0, 0}, {1, 0}, {1, 2}}}) ==
          with(nasty::blocks, "[1, 0], [1, 1]]", "[1, 0], [1, 2]]"));
    CHECK(edited(boat, Reroute{"plus", {{0, 0}, {1, 1}}}) ==
          with(boat, "} # clean\n", "} # clean\nroute_m = [[0, 0], [1, 1]]\n"));
    CHECK_THAT(refusal(boat, Move{"plus", Position{}}), Contains("no part is called 'plus'"));
    CHECK_THAT(refusal(boat, Move{"house", Position{1e6, 0}}), Contains("expected -1000 to 1000"));
    CHECK_THAT(refusal(boat, Reroute{"house", {}}), Contains("no run, way or keep-out"));
    CHECK_THAT(refusal(nasty::blocks, Reroute{"sense", {}}), Contains("'route_m'"));
}
