// SPDX-License-Identifier: MIT
// The whole format: every kind of part, every block of changes, a scene's own catalogues.
#include "scratch.h"

#include "ebbline/error.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

Installation read(const std::string& text) {
    return file::readText(text, "barge.toml", catalogues()).installation;
}

std::string complaint(const std::string& text) {
    try {
        static_cast<void>(read(text));
    } catch (const SceneError& error) {
        return error.what();
    }
    return "";
}

const std::string wiring = R"(ebbline = 1
[[part]]
id = "house"
kind = "battery"
[[part]]
id = "sun"
kind = "charger"
voltage_v = 14.1
on = false
[[part]]
id = "cut"
kind = "breaker"
rating_a = 20
[[part]]
id = "board"
kind = "panel"
ways = 3
closed = [true, false, true]
resistance_mohm = 2
[[part]]
id = "butt"
kind = "splice"
joint_sleeve = { condition = "tired" }
[[part]]
id = "socket"
kind = "plug"
joint_minus = { kind = "plug-contact", resistance_mohm = 12, connected = false }
[[part]]
id = "body"
kind = "chassis"
material = "aluminium"
[[part]]
id = "strap"
kind = "bond"
to = "body"
joint_lug = "ring"
[[part]]
id = "leads"
kind = "bench-leads"
area_mm2 = 6
[[part]]
id = "pump"
kind = "load"
law = "power"
power_w = 80
start_times = 3
[[part]]
id = "volts"
kind = "meter"
plus = "fridge.plus"
minus = "twin.2.from"
[[part]]
id = "fridge"
kind = "controller"
[[run]]
id = "twin"
from = ["house.plus", "house.minus"]
to = ["fridge.plus", "fridge.minus"]
area_mm2 = 4
length_m = 5
)";

} // namespace

TEST_CASE("every kind of part is read with its own keys", "[file]") {
    const Installation scene = read(wiring);
    const auto body = [&](const char* id) { return scene.findPart(id)->body; };
    CHECK(body("sun") == Body(Charger{.voltage_v = 14.1, .on = false}));
    CHECK(body("cut") == Body(Breaker{.rating_a = 20}));
    CHECK(body("board") == Body(Panel{.ways = {{2, true}, {2, false}, {2, true}}}));
    CHECK(body("butt") == Body(Splice{{.kind = "sleeve", .condition = "tired"}}));
    CHECK(body("socket") ==
          Body(Plug{.minus = {.kind = "plug-contact", .resistance_mohm = 12, .connected = false}}));
    CHECK(body("body") == Body(Chassis{.material = "aluminium"}));
    CHECK(body("strap") == Body(Bond{.to = "body", .lug = {.kind = "ring"}}));
    CHECK(body("leads") == Body(BenchLeads{.area_mm2 = 6}));
    CHECK(body("pump") == Body(Load{.law = "power", .power_w = 80, .start_times = 3}));
    CHECK(body("volts") == Body(Meter{.plus = {"fridge", "plus"}, .minus = {"twin", "2.from"}}));
}

TEST_CASE("what is wrong with a part of the newer kinds is said at its place", "[file]") {
    const auto said = [](const std::string& from, const std::string& to) {
        std::string text = wiring;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        return complaint(text.replace(at, from.size(), to));
    };
    CHECK_THAT(
        said("closed = [true, false, true]", "closed = [true, false]"),
        Contains("barge.toml:18:10: 'closed' has 2 values, expected one, or one for each of 3 "
                 "ways of 'board'"));
    CHECK_THAT(said("to = \"body\"", "to = \"cut\""), Contains("unknown chassis 'cut'"));
    CHECK_THAT(said("material = \"aluminium\"", "material = \"tin\""),
               Contains("unknown chassis material 'tin'"));
    CHECK_THAT(said("minus = \"twin.2.from\"", "minus = \"twin.3.from\""),
               Contains("'twin' is a run, expected a terminal of a part"));
    CHECK_THAT(said("minus = \"twin.2.from\"\n", ""), Contains("a meter wants 'minus'"));
    CHECK_THAT(said("area_mm2 = 6", "area_mm2 = 5"), Contains("has no size of 5 mm2"));
    CHECK_THAT(said("law = \"power\"", "law = \"ohm\""),
               Contains("'law' is 'ohm', expected resistance, current or power"));
    CHECK_THAT(said("joint_lug = \"ring\"", "joint_foot = \"ring\""),
               Contains("unknown key 'joint_foot'"));
}

TEST_CASE("conditions, variants and set-ups are sets of changes by class", "[file]") {
    const Installation scene = read(wiring + R"(
[[condition]]
id = "night"
set = { "sun.on" = false, "board.2.closed" = true, "butt.sleeve.condition" = "loose" }
[[variant]]
id = "thick"
name = "thick and short"
remove = ["twin"]
set = { "cut.rating_a" = 25 }
[[variant.run]]
id = "twin"
from = ["house.plus", "house.minus"]
to = ["fridge.plus", "fridge.minus"]
area_mm2 = 10
length_m = 3
[[setup]]
id = "bench"
open = ["twin.1.from"]
bridge = [["fridge.call", "fridge.call-return"]]
part = [{ id = "good", kind = "battery", model = "wet-lead-100" }]
run = [{ id = "good-plus", from = "good.plus", to = "leads.from-plus", awg = 10, length_m = 1 }]
)");
    CHECK(scene.conditions[0].changes ==
          std::vector<Change>{Set{"sun.on", false},
                              Set{"board.2.closed", true},
                              Set{"butt.sleeve.condition", "loose"}});
    const Installation thick = installation::apply(scene, scene.variants[0].changes);
    CHECK(thick.runs.size() == 1);
    CHECK(thick.runs[0].cores[1].size.value == 10);
    CHECK(std::get<Breaker>(thick.findPart("cut")->body).rating_a == 25);
    const Installation bench = installation::apply(scene, scene.setups[0].changes);
    CHECK_FALSE(bench.runs[0].cores[0].joint_from.connected);
    CHECK(bench.findRun("bridge-1")->cores[0].to == Terminal{"fridge", "call-return"});
    CHECK(bench.findPart("good") != nullptr);
    CHECK(bench.findRun("good-plus")->cores[0].size == Size{SizeScale::Awg, 10});
    CHECK(scene.findChangeSet("bench") == &scene.setups[0]);
    CHECK(scene.findChangeSet("house") == nullptr);
}

TEST_CASE("who may change what is enforced", "[file]") {
    const auto refused = [](const std::string& block, const std::string& said) {
        CHECK_THAT(complaint(wiring + block), Contains(said));
    };
    refused("[[condition]]\nid = \"c\"\nset = { \"cut.rating_a\" = 5 }\n",
            "a condition cannot change 'cut.rating_a', which is drawn");
    refused("[[variant]]\nid = \"c\"\nset = { \"sun.on\" = true }\n",
            "a variant cannot change 'sun.on', which is a state");
    refused("[[setup]]\nid = \"c\"\nset = { \"twin.length_m\" = 1 }\n",
            "a set-up cannot change 'twin.length_m', which is drawn");
    refused("[[event]]\nat_s = 1\nset = { \"house.age_pct\" = 1 }\n",
            "an event cannot change 'house.age_pct', which is a quality");
    refused("[[event]]\nat_s = 1\nset = { \"house.charge_pct\" = 1 }\n",
            "cannot change while a start is simulated");
    refused("[[condition]]\nid = \"c\"\nset = {}\nremove = [\"twin\"]\n",
            "unknown key 'remove' in a condition");
    refused("[[variant]]\nid = \"c\"\nremove = [\"house\"]\n",
            "'twin.1.from' ends at 'house.plus', which is not there");
    refused("[[setup]]\nid = \"c\"\nopen = [\"twin.from\"]\n", "no joint is called 'twin.from'");
    refused("[[setup]]\nid = \"c\"\nbridge = [\"fridge.call\"]\n", "a bridge wants [");
    refused("[[variant]]\nid = \"c\"\npart = [{ id = \"cut\", kind = \"fuse\" }]\n",
            "the id 'cut' is taken");
}

TEST_CASE("a fault is what the catalogue says, then what the scene says", "[file]") {
    const Installation scene = read(wiring + R"(
[[fault]]
on = "twin.1.to"
kind = "corroded-joint"
resistance_mohm = 120
[[fault]]
on = "board.1"
kind = "burnt-switch"
)");
    const Installation faulty = installation::apply(scene, installation::faultChanges(scene));
    CHECK(faulty.runs[0].cores[0].joint_to ==
          Joint{.condition = "corroded", .resistance_mohm = 120});
    CHECK(std::get<Panel>(faulty.findPart("board")->body).ways[0].resistance_mohm == 80);
    const auto refused = [](const std::string& block, const std::string& said) {
        CHECK_THAT(complaint(wiring + "[[fault]]\n" + block), Contains(said));
    };
    refused("on = \"house\"\nkind = \"corroded-joint\"\n",
            "'house' is a battery, this fault is one of a joint");
    refused("on = \"house\"\nkind = \"hungry\"\n", "unknown fault 'hungry'");
    refused("on = \"hose\"\nkind = \"flat-battery\"\n", "nothing is called 'hose'");
    refused("on = \"house\"\nkind = \"flat-battery\"\ncolour = 1\n", "unknown key 'colour'");
}

TEST_CASE("spreads, ways, keep-outs and the plan are kept", "[file]") {
    const Installation scene = read(wiring + R"(
[plan]
outline_m = [[0, 0], [4, 0], [4, 2]]
picture = { file = "plans/hull.png", at_m = [0.5, 0], width_m = 8 }
[[spread]]
on = "joints.resistance_mohm"
law = "log-normal"
median = 0.3
sigma = 0.6
[[spread]]
on = "house.charge_pct"
law = "uniform"
low = 40
high = 90
[[way]]
id = "side"
name = "under the side deck"
line_m = [[0, 0], [4, 1]]
ambient_c = 30
[[keep-out]]
id = "tank"
outline_m = [[1, 1], [2, 1], [2, 2]]
)");
    CHECK(scene.spreads == std::vector<Spread>{{"joints.resistance_mohm", "log-normal", 0.3, 0.6},
                                               {"house.charge_pct", "uniform", 40, 90}});
    CHECK(scene.ways == std::vector<Way>{{"side", "under the side deck", {{0, 0}, {4, 1}}, 30}});
    CHECK(scene.keep_outs == std::vector<KeepOut>{{"tank", "", {{1, 1}, {2, 1}, {2, 2}}}});
    CHECK(scene.plan.outline_m.size() == 3);
    CHECK(scene.plan.picture == Picture{"plans/hull.png", {0.5, 0}, 8});
    const auto refused = [](const std::string& block, const std::string& said) {
        CHECK_THAT(complaint(wiring + "[[spread]]\n" + block), Contains(said));
    };
    refused("on = \"house.chemistry\"\nlaw = \"normal\"\nmean = 1\ndeviation = 1\n",
            "is no number that can be spread");
    refused("on = \"house.charge_pct\"\nlaw = \"uniform\"\nlow = 40\nhigh = 30\n",
            "'high' lies below 'low'");
    refused("on = \"house.charge_pct\"\nlaw = \"bell\"\n", "unknown law 'bell'");
    refused("on = \"house.charge_pct\"\nlaw = \"normal\"\nmean = 4\n", "wants 'deviation'");
}

TEST_CASE("a scene's own catalogue lies beside it and adds to the others", "[file]") {
    const Scratch scratch;
    const auto write = [&](const char* name, const std::string& text) {
        std::ofstream(scratch.path() / name, std::ios::binary) << text;
    };
    const std::string head = "ebbline = 1\nwhat = \"parts\"\n";
    write("yard.toml",
          head + "[[battery]]\nid = \"yard-80\"\nsource = \"tag\"\ncertainty = \"memory\"\n"
                 "capacity_ah = 80\n");
    write("scene.toml",
          "ebbline = 1\nuse = [\"yard.toml\"]\n[[part]]\nid = \"house\"\nkind = \"battery\"\n"
          "model = \"yard-80\"\n[[part]]\nid = \"fridge\"\nkind = \"controller\"\n");
    const Document document = file::read(scratch.path() / "scene.toml", catalogues());
    CHECK(std::get<Battery>(document.installation.parts[0].body).capacity_ah == 80);
    CHECK(document.installation.use == std::vector<std::string>{"yard.toml"});
    CHECK(document.catalogues.parts.at("battery").contains("yard-80"));
    CHECK(document.catalogues.parts.at("battery").contains("wet-lead-100"));

    const auto said = [&](const std::string& use) -> std::string {
        try {
            static_cast<void>(file::readText("ebbline = 1\nuse = [\"" + use +
                                                 "\"]\n[[part]]\nid = \"fridge\"\n"
                                                 "kind = \"controller\"\n",
                                             "scene.toml",
                                             catalogues(),
                                             scratch.path()));
        } catch (const SceneError& error) {
            return error.what();
        }
        return "";
    };
    CHECK(said("yard.toml").empty());
    CHECK_THAT(said("../yard.toml"), Contains("scene.toml:2:8: '../yard.toml' does not lie below"));
    CHECK_THAT(said("/etc/passwd"), Contains("does not lie below the scene's folder"));
    CHECK_THAT(said("shop.toml"), Contains("there is no file 'shop.toml'"));
    std::filesystem::create_symlink("/etc/hostname", scratch.path() / "out.toml");
    CHECK_THAT(said("out.toml"), Contains("leads out of the scene's folder"));
    std::filesystem::create_directory(scratch.path() / "folder");
    CHECK_THAT(said("folder"), Contains("is no regular file"));
    write("bad.toml", head + "[[battery]]\nid = \"x\"\nsource = \"s\"\ncertainty = \"sure\"\n");
    CHECK_THAT(said("bad.toml"), Contains("bad.toml:6:13: 'certainty' is 'sure'"));
    write("twice.toml",
          head + "[[battery]]\nid = \"wet-lead-60\"\nsource = \"s\"\ncertainty = \"memory\"\n");
    CHECK_THAT(said("twice.toml"), Contains("the catalogue has this entry already"));
    CHECK_THAT(complaint("ebbline = 1\nuse = [\"yard.toml\"]\n"), Contains("lies in no folder"));
}
