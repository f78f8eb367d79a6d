// SPDX-License-Identifier: MIT
// The list of keys, terminals and names; changes by path.
#include "drawn.h"

#include "ebbline/error.h"
#include "ebbline/installation.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <set>

using namespace ebbline;
using installation::Key;
using installation::KeyClass;

namespace {

Part partOf(const std::string& kind) {
    return {.id = "part", .body = installation::makeBody(kind).value()};
}

std::vector<Key> keysOf(std::string_view kind) {
    std::vector<Key> found;
    for (const Key& key : installation::keys())
        if (key.kind == kind)
            found.push_back(key);
    return found;
}

/// A value that fits the key, another for every `salt`.
Value fitting(const Key& key, int salt) {
    if (key.type == installation::ValueType::Flag)
        return salt % 2 == 0;
    if (key.type == installation::ValueType::Text)
        return key.words.empty() ? "text-" + std::to_string(salt) : std::string(key.words[0]);
    if (!key.choices.empty())
        return key.choices[static_cast<std::size_t>(salt) % key.choices.size()];
    const double value = key.min + (key.max - key.min) * (salt + 1) / 1000;
    return key.whole ? std::round(value) : value;
}

/// A battery, an isolator, a single core and a twin cable, a fridge.
Installation boat() {
    Installation boat{.subject = "fridge"};
    boat.parts = {{.id = "house", .body = Battery{}},
                  {.id = "spare", .body = Battery{.charge_pct = 30}},
                  {.id = "main-switch", .body = Isolator{}},
                  {.id = "fridge", .body = Controller{}}};
    boat.runs = {{.id = "feed", .cores = {{{"house", "plus"}, {"main-switch", "line"}}}},
                 {.id = "twin",
                  .cores = {{{"main-switch", "load"}, {"fridge", "plus"}},
                            {{"house", "minus"}, {"fridge", "minus"}}}}};
    return boat;
}

Installation changed(const std::string& path, const Value& value) {
    return installation::apply(boat(), std::vector<Change>{Set{path, value}});
}

std::string refusal(const std::string& path, const Value& value) {
    try {
        static_cast<void>(changed(path, value));
    } catch (const SceneError& error) {
        REQUIRE(error.problems().size() == 1);
        CHECK(error.problems().front().line == 0);
        return error.problems().front().message;
    }
    return "accepted";
}

} // namespace

TEST_CASE("every field of every kind has its key", "[installation]") {
    // A field more, and the bindings no longer compile.
    [[maybe_unused]] const auto& [chemistry, battery_v, capacity, charge, age, dead, temperature] =
        Battery{};
    CHECK(keysOf("battery").size() == 7);
    [[maybe_unused]] const auto& [isolator_mohm, isolator_closed] = Isolator{};
    CHECK(keysOf("isolator").size() == 2);
    [[maybe_unused]] const auto& [style, rating, holder, element, fuse_age, blown] = Fuse{};
    CHECK(keysOf("fuse").size() == 6);
    [[maybe_unused]] const auto& [studs] = BusBar{};
    CHECK(keysOf("bus-bar").size() == 1);
    [[maybe_unused]] const auto& [stack, face] = Stud{}; // the stack names run ends and is no key
    CHECK(keysOf("stud").size() == 1);
    [[maybe_unused]] const auto& [thermostat_mohm, thermostat_closed] = Thermostat{};
    CHECK(keysOf("thermostat").size() == 2);
    CHECK(keysOf("controller").size() * sizeof(double) == sizeof(Controller));
    [[maybe_unused]] const auto& [voltage, limit, charger_mohm, output, charger_on] = Charger{};
    CHECK(keysOf("charger").size() == 5);
    [[maybe_unused]] const auto& [breaker_a, breaker_mohm, tripped] = Breaker{};
    CHECK(keysOf("breaker").size() == 3);
    [[maybe_unused]] const auto& [sleeve] = Splice{}; // joints are read as such
    CHECK(keysOf("splice").empty());
    [[maybe_unused]] const auto& [pole, other_pole, mated] = Plug{};
    CHECK(keysOf("plug").size() == 1);
    [[maybe_unused]] const auto& [rail, switches] = Panel{}; // and how many switches
    CHECK(keysOf("panel").size() == 2);
    [[maybe_unused]] const auto& [way_mohm, way_closed] = PanelWay{};
    CHECK(keysOf("panel-way").size() == 2);
    [[maybe_unused]] const auto& [material, spread] = Chassis{};
    CHECK(keysOf("chassis").size() == 2);
    [[maybe_unused]] const auto& [to, lug] = Bond{};
    CHECK(keysOf("bond").empty());
    [[maybe_unused]] const auto& [lead_m, lead_mm2, clip, lead_a, lead_holder, lead_blown] =
        BenchLeads{};
    CHECK(keysOf("bench-leads").size() == 6);
    [[maybe_unused]] const auto& [law, ohm, amps, watts, times, start_s, follow, input, load_on] =
        Load{};
    CHECK(keysOf("load").size() == 9);
    [[maybe_unused]] const auto& [first_lead, other_lead, meter_mohm] =
        Meter{}; // leads name terminals
    CHECK(keysOf("meter").size() == 1);
    [[maybe_unused]] const auto& [joint_kind,
                                  condition,
                                  joint_mohm,
                                  film_mohm,
                                  film_v,
                                  opens,
                                  opens_ms,
                                  seed,
                                  connected] = Joint{};
    CHECK(keysOf("joint").size() == 9);
    CHECK(keysOf("surroundings").size() == 1);
    CHECK(keysOf("run").size() == 11);
}

TEST_CASE("every key of a part reads what was set by it, and only that", "[installation]") {
    for (const std::string& kind : installation::kinds()) {
        Part part = partOf(kind);
        const auto keys = keysOf(kind);
        for (std::size_t i = 0; i < keys.size(); ++i)
            installation::set(part, keys[i], fitting(keys[i], static_cast<int>(i)));
        for (std::size_t i = 0; i < keys.size(); ++i) {
            INFO(kind << "." << keys[i].name);
            CHECK(installation::get(part, keys[i]) == fitting(keys[i], static_cast<int>(i)));
        }
    }
}

TEST_CASE("setting a key changes no other field", "[installation]") {
    for (const std::string& kind : installation::kinds())
        for (const Key& key : keysOf(kind)) {
            INFO(kind << "." << key.name);
            Part part = partOf(kind);
            const auto before = installation::get(part, key);
            installation::set(part, key, fitting(key, 500));
            CHECK(part.body.index() == partOf(kind).body.index());
            if (before) {
                installation::set(part, key, *before);
                CHECK(part == partOf(kind));
            }
        }
}

TEST_CASE("built-in defaults fit their own ranges", "[installation]") {
    for (const std::string& kind : installation::kinds())
        for (const Key& key : keysOf(kind))
            if (const auto value = installation::get(partOf(kind), key)) {
                INFO(kind << "." << key.name);
                CHECK(installation::findMisfit(key, *value, key.name) == std::nullopt);
            }
}

TEST_CASE("keys are named so that a circuit can take them, and once per kind", "[installation]") {
    std::set<std::pair<std::string_view, std::string_view>> seen;
    for (const Key& key : installation::keys()) {
        INFO(key.kind << "." << key.name);
        CHECK(key.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") ==
              std::string_view::npos);
        CHECK(seen.emplace(key.kind, key.name).second);
        CHECK_FALSE(key.meaning.empty());
        CHECK((key.type != installation::ValueType::Number || key.min < key.max));
        CHECK(installation::findKey(key.kind, key.name) == &key);
    }
    CHECK(installation::findKey("battery", "rating_a") == nullptr);
    CHECK(installation::findKey("boiler", "rating_a") == nullptr);
}

TEST_CASE("events may switch and charge, conditions also corrode, neither rewires",
          "[installation]") {
    const auto class_of = [](const char* kind, const char* name) {
        return installation::findKey(kind, name)->key_class;
    };
    CHECK(class_of("isolator", "closed") == KeyClass::State);
    CHECK(class_of("battery", "charge_pct") == KeyClass::State);
    CHECK(class_of("surroundings", "ambient_c") == KeyClass::State);
    CHECK(class_of("joint", "condition") == KeyClass::Quality);
    CHECK(class_of("battery", "age_pct") == KeyClass::Quality);
    CHECK(class_of("run", "area_mm2") == KeyClass::Drawn);
    CHECK(class_of("fuse", "rating_a") == KeyClass::Drawn);
}

TEST_CASE("a value that does not fit its key is told what would", "[installation]") {
    const auto misfit = [](const char* kind, const char* name, const Value& value) {
        return installation::findMisfit(*installation::findKey(kind, name), value, "it")
            .value_or("fits");
    };
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    CHECK(misfit("battery", "charge_pct", 0.0) == "fits");
    CHECK(misfit("battery", "charge_pct", 100.0) == "fits");
    CHECK(misfit("battery", "charge_pct", 100.1) == "it is 100.1, expected 0 to 100");
    CHECK(misfit("battery", "charge_pct", nan) == "it is nan, expected 0 to 100");
    CHECK(misfit("battery", "charge_pct", -inf) == "it is -inf, expected 0 to 100");
    CHECK(misfit("battery", "charge_pct", true) == "it wants a number");
    CHECK(misfit("battery", "nominal_v", 24.0) == "fits");
    CHECK(misfit("battery", "nominal_v", 18.0) == "it is 18, expected 12 or 24");
    CHECK(misfit("controller", "nominal_v", nan) == "it is nan, expected 0, 12 or 24");
    CHECK(misfit("bus-bar", "studs", 2.5) == "it is 2.5, expected a whole number from 2 to 40");
    CHECK(misfit("isolator", "closed", 1.0) == "it wants true or false");
    CHECK(misfit("battery", "chemistry", 1.0) == "it wants a text in quotes");
    CHECK(misfit("joint", "condition", "tired") == "fits");
    CHECK(misfit("joint", "condition", "rusty") ==
          "it is 'rusty', expected new, tired, corroded or loose");
}

TEST_CASE("parts have the terminals of their kind", "[installation]") {
    using Names = std::vector<std::string>;
    CHECK(installation::terminalsOf(partOf("battery")) == Names{"plus", "minus"});
    CHECK(installation::terminalsOf(partOf("isolator")) == Names{"line", "load"});
    CHECK(installation::terminalsOf(partOf("fuse")) == Names{"line", "load"});
    CHECK(installation::terminalsOf(partOf("thermostat")) == Names{"line", "load"});
    CHECK(installation::terminalsOf(partOf("stud")) == Names{"post"});
    CHECK(installation::terminalsOf(partOf("bus-bar")) == Names{"1", "2", "3", "4"});
    CHECK(installation::terminalsOf(partOf("controller")) ==
          Names{"plus", "minus", "call", "call-return", "lamp", "u", "v", "w"});
}

TEST_CASE("kinds are known by the names that files use", "[installation]") {
    for (const std::string& kind : installation::kinds())
        CHECK(installation::kindOf(partOf(kind)) == kind);
    CHECK(installation::kinds().size() == std::variant_size_v<Body>);
    CHECK(installation::makeBody("boiler") == std::nullopt);
}

TEST_CASE("a run is as long as stated, or as its route and what is spare", "[installation]") {
    Run run{.id = "twin", .cores = {{}, {}}, .route_m = {{0, 0}, {3, 4}, {3, 6}}, .spare_m = 0.5};
    CHECK(run.length() == 7.5);
    run.length_m = 2;
    CHECK(run.length() == 2);
}

TEST_CASE("ends of a single core and of a twin cable have their names", "[installation]") {
    const Installation drawn = boat();
    CHECK(drawn.findRun("feed")->endName(0, "from") == "feed.from");
    CHECK(drawn.findRun("feed")->coreName(0) == "feed");
    CHECK(drawn.findRun("twin")->endName(1, "to") == "twin.2.to");
    CHECK(drawn.findRun("twin")->coreName(0) == "twin.1");
    CHECK(drawn.findRun("house") == nullptr);
    CHECK(drawn.findPart("twin") == nullptr);
}

TEST_CASE("a change by path changes what it names and nothing else", "[installation]") {
    Installation wanted = boat();
    std::get<Battery>(wanted.parts[0].body).charge_pct = 45;
    CHECK(changed("house.charge_pct", 45.0) == wanted);

    wanted = boat();
    std::get<Isolator>(wanted.parts[2].body).closed = false;
    CHECK(changed("main-switch.closed", false) == wanted);

    wanted = boat();
    wanted.surroundings.ambient_c = -5;
    CHECK(changed("surroundings.ambient_c", -5.0) == wanted);

    wanted = boat();
    wanted.runs[1].cores[1].joint_to.resistance_mohm = 120;
    CHECK(changed("twin.2.to.resistance_mohm", 120.0) == wanted);

    wanted = boat();
    wanted.runs[0].cores[0].joint_from.condition = "loose";
    CHECK(changed("feed.from.condition", "loose") == wanted);

    wanted = boat();
    wanted.runs[1].cores[0].size = {SizeScale::Awg, 12};
    CHECK(changed("twin.1.awg", 12.0) == wanted);

    wanted = boat();
    wanted.runs[1].cores[0].conductor = wanted.runs[1].cores[1].conductor = "class-2";
    CHECK(changed("twin.conductor", "class-2") == wanted);

    wanted = boat();
    wanted.runs[1].length_m = 7;
    CHECK(changed("twin.length_m", 7.0) == wanted);

    wanted = boat();
    wanted.runs[0].inductance_uh = 0.8;
    CHECK(changed("feed.inductance_uh", 0.8) == wanted);
}

TEST_CASE("a group word stands for every one", "[installation]") {
    Installation wanted = boat();
    for (Run& run : wanted.runs)
        for (Core& core : run.cores)
            core.joint_from.condition = core.joint_to.condition = "tired";
    CHECK(changed("joints.condition", "tired") == wanted);

    wanted = boat();
    for (const std::size_t i : {0U, 1U})
        std::get<Battery>(wanted.parts[i].body).temperature_c = -10;
    CHECK(changed("batteries.temperature_c", -10.0) == wanted);

    wanted = boat();
    for (Run& run : wanted.runs) {
        run.spare_m = 1;
        for (Core& core : run.cores)
            core.size = {SizeScale::Mm2, 10};
    }
    CHECK(installation::apply(
              boat(), std::vector<Change>{Set{"runs.spare_m", 1.0}, Set{"runs.area_mm2", 10.0}}) ==
          wanted);
}

TEST_CASE("changes are made in order, the later one holds", "[installation]") {
    const std::vector<Change> changes{Set{"house.charge_pct", 20.0},
                                      Set{"batteries.charge_pct", 60.0}};
    const Installation after = installation::apply(boat(), changes);
    CHECK(std::get<Battery>(after.parts[0].body).charge_pct == 60);
    const std::vector<Change> turned{changes[1], changes[0]};
    const Installation other = installation::apply(boat(), turned);
    CHECK(std::get<Battery>(other.parts[0].body).charge_pct == 20);
    CHECK(std::get<Battery>(other.parts[1].body).charge_pct == 60);
}

TEST_CASE("a joint's new condition holds, not what was measured before", "[installation]") {
    Installation drawn = boat();
    drawn.runs[0].cores[0].joint_to.resistance_mohm = 0.1;
    const std::vector<Change> corroded{Set{"feed.to.condition", "corroded"}};
    const Joint joint = installation::apply(drawn, corroded).runs[0].cores[0].joint_to;
    CHECK(joint.condition == "corroded");
    CHECK(joint.resistance_mohm == std::nullopt);
}

TEST_CASE("the installation that is changed stays as it was", "[installation]") {
    const Installation before = boat();
    const Installation after =
        installation::apply(before, std::vector<Change>{Set{"house.charge_pct", 1.0}});
    CHECK(before == boat());
    CHECK_FALSE(after == before);
}

TEST_CASE("a change that cannot be made says why", "[installation]") {
    CHECK(refusal("hose.charge_pct", 1.0) == "nothing is called 'hose', did you mean 'house'");
    CHECK(refusal("twin.3.awg", 12.0) == "nothing is called 'twin.3', did you mean 'twin.1'");
    CHECK(refusal("feed.1.to.condition", "tired") ==
          "nothing is called 'feed.1.to', did you mean 'feed.to'");
    CHECK(refusal("zzzzzzzz.awg", 12.0) == "nothing is called 'zzzzzzzz'");
    CHECK(refusal("house.charge_pc", 1.0) ==
          "'house' has no key 'charge_pc', did you mean 'charge_pct'");
    CHECK(refusal("house.rating_a", 1.0) == "'house' has no key 'rating_a'");
    CHECK(refusal("joints.conditon", "new") ==
          "'joints' has no key 'conditon', did you mean 'condition'");
    CHECK(refusal("charge_pct", 1.0) == "'charge_pct' names no key, expected owner.key");
    CHECK(refusal("", 1.0) == "'' names no key, expected owner.key");
    CHECK(refusal("twin.2.length_m", 1.0) ==
          "'twin.2' is one core, 'length_m' belongs to the whole run 'twin'");
    CHECK(refusal("house.charge_pct", 130.0) == "'house.charge_pct' is 130, expected 0 to 100");
    CHECK(refusal("house.charge_pct", "full") == "'house.charge_pct' wants a number");
    CHECK(refusal("joints.condition", "rusty") ==
          "'joints.condition' is 'rusty', expected new, tired, corroded or loose");
}
