// SPDX-License-Identifier: MIT
// The survey of small installations whose answers one sees on paper.
#include "drawn.h"

#include "ebbline/survey.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>

using namespace ebbline;
using Names = std::vector<std::string>;

namespace {

Network build(const Installation& drawn) {
    return network::build(drawn, file::embeddedModels().catalogues);
}

/// A network with its survey, and names in place of indices.
struct Surveyed {
    explicit Surveyed(const Installation& drawn) : Surveyed(build(drawn)) {}
    explicit Surveyed(Network of) : network(std::move(of)), survey(network::survey(network)) {}

    Network network;
    Survey survey;

    [[nodiscard]] std::string name(int element) const {
        return network.elements[static_cast<std::size_t>(element)].name;
    }
    [[nodiscard]] Names names(const std::vector<int>& elements) const {
        Names all;
        for (const int element : elements)
            all.push_back(name(element));
        return all;
    }
    [[nodiscard]] Names names(const std::vector<Step>& way) const {
        Names all;
        for (const Step& step : way)
            all.push_back(name(step.element));
        return all;
    }
    [[nodiscard]] const Protection& protection(const std::string& fuse) const {
        const auto place = std::ranges::find_if(
            survey.protections, [&](const Protection& one) { return name(one.element) == fuse; });
        REQUIRE(place != survey.protections.end());
        return *place;
    }
    /// "main-switch.load: bare terminal".
    [[nodiscard]] Names openEnds() const {
        Names all;
        for (const OpenEnd& end : survey.open_ends)
            all.push_back(end.name + ": " + std::string(nameOf(end.kind)));
        return all;
    }
    [[nodiscard]] Names unfused() const {
        Names all;
        for (const Unfused& one : survey.unfused)
            all.push_back(name(one.element) + " from " + name(one.source));
        return all;
    }
};

/// battery - main-switch - main-fuse - fridge - battery, as drawn::loop, to be added to.
struct Drawing {
    Installation drawn = drawn::loop({});

    Drawing& part(const std::string& id, Body body) {
        drawn.parts.push_back({.id = id, .body = std::move(body)});
        return *this;
    }
    Drawing& run(const std::string& id, Terminal from, Terminal to, double area_mm2 = 2.5) {
        Run run = drawn::runOf(drawn, "first");
        run.id = id;
        run.cores[0].from = std::move(from);
        run.cores[0].to = std::move(to);
        run.cores[0].size = {SizeScale::Mm2, area_mm2};
        drawn.runs.push_back(run);
        return *this;
    }
    Drawing& without(const std::string& id) {
        std::erase_if(drawn.parts, [&](const Part& one) { return one.id == id; });
        std::erase_if(drawn.runs, [&](const Run& one) { return one.id == id; });
        return *this;
    }
    Core& core(const std::string& run) { return drawn::runOf(drawn, run).cores[0]; }
    template <class Kind>
    Kind& body(const std::string& id) {
        return std::get<Kind>(std::ranges::find(drawn.parts, id, &Part::id)->body);
    }
};

} // namespace

TEST_CASE("a plain loop is closed, hangs on all it has, and is fused from its fuse on",
          "[survey]") {
    const Surveyed found(Drawing().drawn);
    REQUIRE(found.survey.loop);
    CHECK(found.survey.loop == found.network.loop);
    CHECK(found.survey.bridges.size() == 1 + 2 + 4 * 3); // battery, switch and fuse, four runs
    CHECK(found.survey.parallels.empty());
    REQUIRE(found.survey.islands.size() == 1);
    CHECK(found.survey.islands[0].nodes.size() == found.network.nodes.size());
    const Protection& fuse = found.protection("main-fuse");
    CHECK(fuse.rating_a == 15);
    CHECK(found.names(fuse.protects) == Names{"third.from", "third", "third.to"});
    CHECK(found.name(fuse.thinnest.value()) == "third");
    CHECK(found.names(fuse.feeds) == Names{"fridge"});
    CHECK(found.unfused() == Names{"first from house", "second from house"});
    CHECK(found.survey.sharings.empty());
    CHECK(found.openEnds().empty());
    CHECK(found.survey.misplaced.empty());
    CHECK(found.survey.shorted.empty());
    CHECK_FALSE(found.survey.call_closed.has_value());
}

TEST_CASE("a switch that is off breaks the loop, unless an event closes it", "[survey]") {
    Drawing drawing;
    drawing.body<Isolator>("main-switch").closed = false;
    const Surveyed off(drawing.drawn);
    CHECK_FALSE(off.survey.loop.has_value());
    CHECK(off.names(off.survey.interruptions) == Names{"main-switch"});
    CHECK(off.openEnds() == Names{"main-switch: open contact"});
    CHECK(off.survey.bridges.empty());
    // A ring opened in one place still hangs together; the fuse still protects what it protects.
    CHECK(off.survey.islands.size() == 1);
    CHECK(off.names(off.protection("main-fuse").protects).size() == 3);

    drawing.drawn.events = {{.at_s = 0, .set = {{"main-switch.closed", true}}}};
    const Surveyed later(drawing.drawn);
    CHECK(later.survey.loop.has_value());
    CHECK(later.openEnds().empty());
}

TEST_CASE("two joints that are off leave the fridge on an island of its own", "[survey]") {
    Drawing drawing;
    drawing.core("third").joint_to.connected = false;
    drawing.core("return").joint_to.connected = false;
    const Surveyed found(drawing.drawn);
    CHECK(found.names(found.survey.interruptions) == Names{"third.to", "return.to"});
    CHECK(found.openEnds() == Names{"third.to: open joint", "return.to: open joint"});
    REQUIRE(found.survey.islands.size() == 2);
    const Island& source = found.survey.islands[0];
    const Island& fridge = found.survey.islands[1];
    CHECK(source.holds_source);
    CHECK_FALSE(source.holds_fridge);
    CHECK(fridge.holds_fridge);
    CHECK_FALSE(fridge.holds_source);
    CHECK(fridge.nodes.size() == 2); // its plus and its minus
}

TEST_CASE("what has blown or tripped opens the way but still protects", "[survey]") {
    Drawing drawing;
    drawing.body<Fuse>("main-fuse").blown = true;
    drawing.part("trip", Breaker{.tripped = true})
        .run("tail", {"main-switch", "load"}, {"trip", "line"})
        .run("spur", {"trip", "load"}, {"fridge", "plus"}, 1.5);
    const Surveyed found(drawing.drawn);
    CHECK_FALSE(found.survey.loop.has_value());
    CHECK(found.openEnds() == Names{"main-fuse: blown fuse", "trip: tripped breaker"});
    // As drawn the fridge has two feeds: neither fuse nor breaker protects the other's.
    CHECK(found.names(found.survey.behind_several) == Names{"third", "spur"});
    CHECK(found.protection("trip").protects.empty());
}

TEST_CASE("two cores side by side share the current and neither is missed alone", "[survey]") {
    Drawing drawing;
    drawing.run("second-core", {"main-fuse", "load"}, {"fridge", "plus"});
    const Surveyed found(drawing.drawn);
    REQUIRE(found.survey.parallels.size() == 1);
    const ParallelWays& ways = found.survey.parallels[0];
    CHECK(found.names(ways.elements) == Names{"third.from",
                                              "third",
                                              "third.to",
                                              "second-core.from",
                                              "second-core",
                                              "second-core.to"});
    Names between;
    for (const int node : ways.nodes)
        between.push_back(found.network.nodes[static_cast<std::size_t>(node)]);
    std::ranges::sort(between);
    CHECK(between == Names{"fridge.plus", "main-fuse.load"});
    CHECK(found.survey.bridges.size() == 15 - 3);
    CHECK(found.protection("main-fuse").protects.size() == 6);
}

TEST_CASE("a pump on the fridge's feed shares it up to where it leaves", "[survey]") {
    Drawing drawing;
    drawing.part("pump", Load{})
        .run("pump-plus", {"main-fuse", "load"}, {"pump", "plus"}, 1)
        .run("pump-minus", {"pump", "minus"}, {"house", "minus"});
    const Surveyed found(drawing.drawn);
    REQUIRE(found.survey.sharings.size() == 1);
    const Sharing& sharing = found.survey.sharings[0];
    CHECK(found.name(sharing.consumer) == "pump");
    CHECK(found.names(sharing.out) == Names{"first.from",
                                            "first",
                                            "first.to",
                                            "main-switch",
                                            "second.from",
                                            "second",
                                            "second.to",
                                            "main-fuse"});
    CHECK(sharing.back.empty());
    const Protection& fuse = found.protection("main-fuse");
    CHECK(found.names(fuse.feeds) == Names{"fridge", "pump"});
    CHECK(found.name(fuse.thinnest.value()) == "pump-plus");
}

TEST_CASE("fuses in a row each protect what is behind them", "[survey]") {
    Drawing drawing;
    drawing.without("third")
        .part("unit-fuse", Fuse{.rating_a = 7.5})
        .run("link", {"main-fuse", "load"}, {"unit-fuse", "line"}, 6)
        .run("last", {"unit-fuse", "load"}, {"fridge", "plus"}, 1.5);
    const Surveyed found(drawing.drawn);
    CHECK(found.names(found.protection("unit-fuse").protects) ==
          Names{"last.from", "last", "last.to"});
    CHECK(found.protection("unit-fuse").rating_a == 7.5);
    const Protection& main = found.protection("main-fuse");
    CHECK(found.names(main.protects) ==
          Names{"unit-fuse", "link.from", "link", "link.to", "last.from", "last", "last.to"});
    CHECK(found.name(main.thinnest.value()) == "last");
}

TEST_CASE("a charger behind a bar reaches what the battery's fuse seemed to protect", "[survey]") {
    Drawing drawing;
    drawing.without("third")
        .part("bar", BusBar{})
        .part("sun", Charger{})
        .part("sun-fuse", Fuse{.rating_a = 20})
        .run("to-bar", {"main-fuse", "load"}, {"bar", "1"})
        .run("third", {"bar", "2"}, {"fridge", "plus"})
        .run("sun-tail", {"sun", "plus"}, {"sun-fuse", "line"})
        .run("sun-bar", {"sun-fuse", "load"}, {"bar", "3"})
        .run("sun-minus", {"sun", "minus"}, {"house", "minus"});
    const Surveyed found(drawing.drawn);
    CHECK(found.unfused() == Names{"first from house", "second from house", "sun-tail from sun"});
    CHECK(found.names(found.survey.behind_several) == Names{"to-bar", "third", "sun-bar"});
    CHECK(found.protection("main-fuse").protects.empty());
    CHECK(found.protection("main-fuse").feeds.empty());
    CHECK(found.name(found.survey.loop.value().battery) == "house");
    // Neither source alone is needed, only what both go through.
    CHECK(found.names(found.survey.bridges) ==
          Names{"return.from", "return", "return.to", "third.from", "third", "third.to"});
}

TEST_CASE("terminals and runs that lead nowhere are found, spare ways are not", "[survey]") {
    Drawing drawing;
    drawing.part("spare", Fuse{})
        .part("board", Panel{})
        .part("bar", BusBar{})
        .part("socket", Plug{.mated = false})
        .part("post", Stud{.stack = {{"first", "from"}, {"feed", "from"}}})
        .part("volts", Meter{.plus = {"spare", "line"}, .minus = {"house", "minus"}})
        .run("feed", {"house", "plus"}, {"board", "feed"})
        .run("stub", {"board", "2"}, {"bar", "3"})
        .run("into", {"main-fuse", "load"}, {"socket", "in-plus"});
    drawing.core("feed").from = {"post", "post"};
    drawing.core("first").from = {"post", "post"};
    drawing.run("tail", {"house", "plus"}, {"post", "post"});
    const Surveyed found(drawing.drawn);
    Names ends = found.openEnds();
    std::ranges::sort(ends);
    CHECK(ends == Names{"bar: dead end",
                        "socket.in-minus: bare terminal",
                        "socket.minus: plug not mated",
                        "socket.out-minus: bare terminal",
                        "socket.out-plus: bare terminal",
                        "socket.plus: plug not mated",
                        "spare.line: bare terminal",
                        "spare.load: bare terminal"});
    // A meter's lead connects nothing.
    CHECK(found.survey.islands.size() == 1 + 1 + 1 + 1 + 1);
}

TEST_CASE("plus and minus exchanged at the fridge, at a load, at a battery", "[survey]") {
    Drawing drawing;
    std::swap(drawing.core("third").to, drawing.core("return").to);
    drawing.part("lamp", Load{})
        .run("lamp-plus", {"house", "minus"}, {"lamp", "plus"})
        .run("lamp-minus", {"lamp", "minus"}, {"main-switch", "load"});
    const Surveyed found(drawing.drawn);
    REQUIRE(found.survey.loop);
    CHECK(found.survey.loop->reversed);
    REQUIRE(found.survey.misplaced.size() == 2);
    for (const Misplaced& place : found.survey.misplaced)
        CHECK((place.plus_on_minus && place.minus_on_plus));

    Drawing against;
    against.part("other", Battery{})
        .run("cross-a", {"house", "plus"}, {"other", "minus"})
        .run("cross-b", {"house", "minus"}, {"other", "plus"});
    const Surveyed crossed(against.drawn);
    REQUIRE(crossed.survey.misplaced.size() == 2);
    CHECK(crossed.name(crossed.survey.misplaced[0].element) == "house");
    CHECK(crossed.name(crossed.survey.misplaced[1].element) == "other");
}

TEST_CASE("a lone terminal on the wrong side is told from an exchange", "[survey]") {
    Drawing drawing;
    drawing.without("return").core("third").to = {"fridge", "minus"};
    const Surveyed found(drawing.drawn);
    REQUIRE(found.survey.misplaced.size() == 1);
    CHECK_FALSE(found.survey.misplaced[0].plus_on_minus);
    CHECK(found.survey.misplaced[0].minus_on_plus);
}

TEST_CASE("posts joined by wiring alone are a dead short", "[survey]") {
    Drawing drawing;
    drawing.run("spanner", {"main-switch", "load"}, {"house", "minus"});
    const Surveyed found(drawing.drawn);
    CHECK(found.names(found.survey.shorted) == Names{"house"});
    CHECK(Surveyed(Drawing().drawn).survey.shorted.empty());
}

TEST_CASE("batteries in a row are no fault of polarity and are not followed", "[survey]") {
    Drawing drawing;
    drawing.part("other", Battery{})
        .without("return")
        .run("link", {"house", "minus"}, {"other", "plus"})
        .run("return", {"other", "minus"}, {"fridge", "minus"});
    const Surveyed found(drawing.drawn);
    CHECK(found.survey.misplaced.empty());
    CHECK_FALSE(found.survey.loop.has_value());
    CHECK(found.survey.interruptions.empty());
    CHECK(found.survey.islands.size() == 1);
}

TEST_CASE("the thermostat's loop is closed through it or not at all", "[survey]") {
    Drawing drawing;
    drawing.part("stat", Thermostat{.closed = false})
        .run("call-out", {"fridge", "call"}, {"stat", "line"});
    const Surveyed half(drawing.drawn);
    CHECK(half.survey.call_closed == false);
    CHECK(half.openEnds() == Names{"stat.load: bare terminal"});
    drawing.run("call-back", {"stat", "load"}, {"fridge", "call-return"});
    const Surveyed whole(drawing.drawn);
    CHECK(whole.survey.call_closed == true);
    CHECK(whole.openEnds().empty());
    CHECK(whole.survey.islands.size() == 2);
    drawing.core("call-back").joint_to.connected = false;
    CHECK(Surveyed(drawing.drawn).survey.call_closed == false);
}

TEST_CASE("a return by the chassis is followed through lug, washer and metal", "[survey]") {
    Drawing drawing;
    drawing.without("return")
        .part("body", Chassis{})
        .part("front", Bond{.to = "body"})
        .part("rear", Bond{.to = "body"})
        .run("strap", {"house", "minus"}, {"front", "lug"})
        .run("return", {"fridge", "minus"}, {"rear", "lug"});
    const Surveyed found(drawing.drawn);
    REQUIRE(found.survey.loop);
    CHECK(found.names(found.survey.loop->back) == Names{"return.from",
                                                        "return",
                                                        "return.to",
                                                        "rear.lug",
                                                        "rear.metal",
                                                        "front.metal",
                                                        "front.lug",
                                                        "strap.to",
                                                        "strap",
                                                        "strap.from"});
    drawing.without("return").run("return", {"fridge", "minus"}, {"house", "minus"});
    const Surveyed bypassed(drawing.drawn);
    Names ends = bypassed.openEnds();
    std::ranges::sort(ends);
    CHECK(ends == Names{"rear.lug: bare terminal"});
}

TEST_CASE("bench leads bring their own fuse", "[survey]") {
    Drawing drawing;
    drawing.without("first").without("second").without("third").without("return");
    drawing.without("main-switch").without("main-fuse");
    drawing.part("leads", BenchLeads{.area_mm2 = 4, .rating_a = 10});
    drawing.drawn.runs.clear();
    Run run{.id = "a", .cores = {Core{}}, .length_m = 0.1};
    const auto add = [&](const char* id, Terminal from, Terminal to) {
        run.id = id;
        run.cores[0].from = std::move(from);
        run.cores[0].to = std::move(to);
        drawing.drawn.runs.push_back(run);
    };
    add("a", {"house", "plus"}, {"leads", "from-plus"});
    add("b", {"house", "minus"}, {"leads", "from-minus"});
    add("c", {"leads", "to-plus"}, {"fridge", "plus"});
    add("d", {"leads", "to-minus"}, {"fridge", "minus"});
    const Surveyed found(drawing.drawn);
    const Protection& fuse = found.protection("leads.fuse");
    CHECK(fuse.rating_a == 10);
    CHECK(found.names(fuse.protects) ==
          Names{"leads.plus", "leads.to-plus", "c.from", "c", "c.to"});
    CHECK(found.unfused() == Names{"a from house"});
    drawing.body<BenchLeads>("leads").blown = true;
    CHECK(Surveyed(drawing.drawn).openEnds() == Names{"leads.fuse: blown fuse"});
}

TEST_CASE("in every scene the survey's loop is the one that is simulated", "[survey]") {
    for (const std::string& name : drawn::sceneNames()) {
        INFO(name);
        const Surveyed found(drawn::scene(name));
        if (!found.survey.interruptions.empty())
            continue; // the simulation keeps an open loop to say where it is open
        REQUIRE(found.survey.loop.has_value() == found.network.loop.has_value());
        if (!found.survey.loop)
            continue;
        CHECK(found.survey.loop->battery == found.network.loop->battery);
        CHECK(found.survey.loop->reversed == found.network.loop->reversed);
        CHECK(found.names(found.survey.loop->out) == found.names(found.network.loop->out));
        CHECK(found.names(found.survey.loop->back) == found.names(found.network.loop->back));
    }
}

TEST_CASE("a network of ten thousand elements is surveyed without running out of stack",
          "[survey]") {
    // A feed of many lengths, each length double, a fuse every fifty, a load at every tenth node.
    Network network;
    network.installation.subject = "fridge";
    network.nodes = {"house.minus", "house.plus"};
    const auto add = [&](const std::string& name, ElementKind kind, int from, int to) {
        network.elements.push_back(
            {.name = name, .kind = kind, .from = from, .to = to, .ohm = 0.001, .part = name});
    };
    add("house", ElementKind::Battery, 0, 1);
    int at = 1;
    int fuses = 0;
    for (int i = 0; network.elements.size() < 9999; ++i) {
        const int next = static_cast<int>(network.nodes.size());
        network.nodes.push_back("n" + std::to_string(i) + ".t");
        const bool is_fuse = i % 50 == 0;
        add("a" + std::to_string(i),
            is_fuse ? ElementKind::Fuse : ElementKind::Conductor,
            at,
            next);
        if (!is_fuse)
            add("b" + std::to_string(i), ElementKind::Conductor, at, next);
        if (i % 10 == 9)
            add("load" + std::to_string(i), ElementKind::Load, next, 0);
        fuses += is_fuse ? 1 : 0;
        at = next;
    }
    add("fridge", ElementKind::Controller, at, 0);
    const auto begin = std::chrono::steady_clock::now();
    const Survey survey = network::survey(network);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
    WARN(network.elements.size() << " elements surveyed in " << taken.count() << " s");
    CHECK(survey.protections.size() == static_cast<std::size_t>(fuses));
    CHECK(survey.bridges.size() == static_cast<std::size_t>(fuses) + 1);
    CHECK(survey.parallels.size() == survey.loop.value().out.size() - survey.bridges.size() + 1);
    CHECK(survey.protections.back().feeds.back() == static_cast<int>(network.elements.size()) - 1);
    CHECK(survey.unfused.empty());
}
