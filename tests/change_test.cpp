// SPDX-License-Identifier: MIT
// Changes of wiring: taking off, bridging, placing, removing; and who is meant by a path.
#include "drawn.h"

#include "ebbline/error.h"

#include <catch2/catch.hpp>

using namespace ebbline;

namespace {

Installation boat() {
    return drawn::loop({});
}

/// What is said of changes that cannot be made; empty where they can.
std::string refusal(const std::vector<Change>& changes) {
    try {
        static_cast<void>(installation::apply(boat(), changes));
    } catch (const SceneError& error) {
        return error.problems().front().message;
    }
    return "";
}

} // namespace

TEST_CASE("a joint taken off is not connected", "[installation]") {
    const Installation open = installation::apply(boat(), std::vector<Change>{Open{"third.to"}});
    CHECK_FALSE(open.findRun("third")->cores[0].joint_to.connected);
    CHECK(open.findRun("third")->cores[0].joint_from.connected);
    CHECK(refusal({Open{"third.too"}}) ==
          "no joint is called 'third.too', did you mean 'third.to'");
    CHECK(refusal({Open{"third"}}).starts_with("no joint is called 'third'"));
}

TEST_CASE("bridges are short runs with names of their own", "[installation]") {
    const Installation bridged = installation::apply(
        boat(),
        std::vector<Change>{Bridge{{"main-fuse", "line"}, {"main-fuse", "load"}},
                            Bridge{{"house", "plus"}, {"fridge", "plus"}}});
    REQUIRE(bridged.runs.size() == boat().runs.size() + 2);
    CHECK(bridged.runs[4].id == "bridge-1");
    CHECK(bridged.runs[5].id == "bridge-2");
    CHECK(bridged.runs[5].cores[0].to == Terminal{"fridge", "plus"});
    CHECK(refusal({Bridge{{"house", "plus"}, {"fridge", "pluss"}}}) ==
          "'bridge-1.to' ends at 'fridge.pluss', which is not there");
}

TEST_CASE("what is placed must fit, what is removed must not be named", "[installation]") {
    const Part spare{.id = "spare", .body = Battery{}};
    CHECK(installation::apply(boat(), std::vector<Change>{Place{spare}}).findPart("spare") !=
          nullptr);
    CHECK(refusal({Place{Part{.id = "house", .body = Battery{}}}}) == "the id 'house' is taken");
    CHECK(refusal({Remove{"main-fuse"}}) ==
          "'second.to' ends at 'main-fuse.line', which is not there");
    CHECK(refusal({Remove{"fuse"}}).starts_with("no part or run is called 'fuse'"));
    CHECK(refusal({Remove{"third"}, Remove{"return"}, Remove{"fridge"}}) ==
          "the subject 'fridge' is no controller");
    // In any order, as long as all is well in the end.
    CHECK(refusal({Remove{"main-fuse"}, Remove{"second"}, Remove{"third"}}).empty());
    CHECK(refusal({Place{Part{.id = "strap", .body = Bond{.to = "body"}}}}) ==
          "'strap' is bolted to 'body', which is no chassis");
    CHECK(refusal(
              {Place{Part{.id = "volts",
                          .body = Meter{.plus = {"fridge", "plus"}, .minus = {"no", "where"}}}}}) ==
          "a lead of 'volts' is on 'no.where', which is not there");
    CHECK(refusal({Place{Part{.id = "post", .body = Stud{.stack = {{"third", "to"}}}}}}) ==
          "the stack of 'post' does not hold just the lugs bolted to it");
}

TEST_CASE("paths reach switches of a panel and joints of parts", "[installation]") {
    Installation drawn = boat();
    drawn.parts.push_back({.id = "board", .body = Panel{}});
    drawn.parts.push_back({.id = "socket", .body = Plug{}});
    const auto after = [&](const std::string& path, const Value& value) {
        return installation::apply(drawn, std::vector<Change>{Set{path, value}});
    };
    const auto closed = [](const Installation& changed) {
        std::string text;
        for (const PanelWay& way : std::get<Panel>(changed.findPart("board")->body).ways)
            text += way.closed ? '1' : '0';
        return text;
    };
    CHECK(closed(after("board.2.closed", false)) == "1011");
    CHECK(closed(after("board.closed", false)) == "0000");
    CHECK(closed(after("board.ways", 2.0)) == "11");
    const auto plug = [](const Installation& changed) {
        return std::get<Plug>(changed.findPart("socket")->body);
    };
    CHECK(plug(after("socket.minus.condition", "loose")).minus.condition == "loose");
    CHECK(plug(after("socket.minus.condition", "loose")).plus.condition == "new");
    CHECK(plug(after("joints.condition", "tired")).plus.condition == "tired");
    CHECK(installation::findKind(drawn, "board.4") == "panel-way");
    CHECK(installation::findKind(drawn, "board.5") == std::nullopt);
    CHECK(installation::findKind(drawn, "socket.plus") == "joint");
    CHECK(installation::findKind(drawn, "first.from") == "joint");
    CHECK(installation::findKind(drawn, "first") == "run");
}
