// SPDX-License-Identifier: MIT
// The survey of random networks against the listing of every simple path.
#include "listed.h"

#include "ebbline/survey.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <random>
#include <set>

using namespace ebbline;

namespace {

constexpr int networks = 500;

class Draw {
public:
    explicit Draw(std::uint64_t seed) : m_engine(seed) {}
    int below(int count) { return static_cast<int>(m_engine() % static_cast<unsigned>(count)); }
    bool oneIn(int count) { return below(count) == 0; }

private:
    std::mt19937_64 m_engine;
};

ElementKind drawKind(Draw& draw) {
    using enum ElementKind;
    static constexpr std::array kinds{Conductor,
                                      Conductor,
                                      Conductor,
                                      Conductor,
                                      Joint,
                                      Contact,
                                      Fuse,
                                      Fuse,
                                      Breaker,
                                      Thermostat,
                                      Battery,
                                      Charger,
                                      Load,
                                      Load,
                                      Meter};
    return kinds.at(static_cast<std::size_t>(draw.below(static_cast<int>(kinds.size()))));
}

Element drawElement(Draw& draw, ElementKind kind, int nodes, int index) {
    const std::string name = "e" + std::to_string(index);
    Element element{.name = name, .kind = kind, .part = name};
    element.from = draw.below(nodes);
    element.to = (element.from + 1 + draw.below(nodes - 1)) % nodes;
    element.ohm = 0.001 * (1 + draw.below(1000));
    element.area_mm2 = kind == ElementKind::Conductor ? 1 + draw.below(1000) : 0;
    element.closed = !draw.oneIn(8);
    if (draw.oneIn(20))
        element.switchings = {{1.0, !element.closed}};
    return element;
}

Network drawNetwork(std::uint64_t seed) {
    Draw draw(seed);
    Network network;
    network.installation.subject = "e1";
    const int nodes = 4 + draw.below(5);
    for (int i = 0; i < nodes; ++i)
        network.nodes.push_back("n" + std::to_string(i) + ".t");
    const int count = 6 + draw.below(7);
    for (int i = 0; i < count; ++i) {
        const ElementKind kind = i == 0   ? ElementKind::Battery
                                 : i == 1 ? ElementKind::Controller
                                          : drawKind(draw);
        network.elements.push_back(drawElement(draw, kind, nodes, i));
        if (kind == ElementKind::Fuse)
            network.installation.parts.push_back(
                {.id = network.elements.back().part,
                 .body = Fuse{.rating_a = 1.0 + i, .blown = draw.oneIn(8)}});
    }
    return network;
}

void checkIslands(const Listed& listed, const Survey& survey) {
    const int nodes = static_cast<int>(listed.network.nodes.size());
    std::vector<int> island_of(static_cast<std::size_t>(nodes), -1);
    for (std::size_t i = 0; i < survey.islands.size(); ++i)
        for (const int node : survey.islands[i].nodes) {
            CHECK(island_of[static_cast<std::size_t>(node)] == -1);
            island_of[static_cast<std::size_t>(node)] = static_cast<int>(i);
        }
    const Listed::Filter joins = [&](int i) {
        return listed.element(i).kind != ElementKind::Meter && !listed.isOpen(i);
    };
    for (int one = 0; one < nodes; ++one)
        for (int other = 0; other < nodes; ++other)
            CHECK((island_of[static_cast<std::size_t>(one)] ==
                   island_of[static_cast<std::size_t>(other)]) ==
                  !listed.paths(joins, one, other).empty());
    const int fridge = listed.element(listed.network.subject()).from;
    for (const Island& island : survey.islands) {
        const auto inside = [&](int node) {
            return std::ranges::find(island.nodes, node) != island.nodes.end();
        };
        CHECK(island.holds_fridge == inside(fridge));
        bool has_source = false;
        for (int i = 0; i < listed.count(); ++i)
            has_source = has_source || (listed.isSource(i) && inside(listed.element(i).to));
        CHECK(island.holds_source == has_source);
    }
}

/// Follows the steps and returns what was gone through; fails where they do not hang together.
Elements follow(const Listed& listed, const std::vector<Step>& way, int from, int to) {
    Elements gone = 0;
    int node = from;
    for (const Step& step : way) {
        const Element& element = listed.element(step.element);
        CHECK(listed.isWay(step.element));
        CHECK(node == (step.sign > 0 ? element.from : element.to));
        node = step.sign > 0 ? element.to : element.from;
        CHECK_FALSE(holds(gone, step.element));
        gone |= only(step.element);
    }
    CHECK(node == to);
    return gone;
}

bool anyBattery(const Listed& listed, const std::vector<Elements>& supplies) {
    return std::ranges::any_of(supplies, [&](Elements set) {
        for (const int i : asList(set))
            if (listed.element(i).kind == ElementKind::Battery)
                return true;
        return false;
    });
}

void checkLoop(const Listed& listed, const Survey& survey) {
    const bool forward = !listed.supplies(false).empty();
    const auto supplies = listed.supplies(!forward);
    REQUIRE(survey.loop.has_value() == !supplies.empty());
    if (!survey.loop)
        return;
    const SupplyLoop& loop = *survey.loop;
    const int fridge = listed.network.subject();
    CHECK(loop.controller == fridge);
    CHECK(loop.reversed == !forward);
    CHECK((listed.element(loop.battery).kind == ElementKind::Battery) ==
          anyBattery(listed, supplies));
    const int plus = loop.reversed ? listed.minus(fridge) : listed.plus(fridge);
    const int minus = loop.reversed ? listed.plus(fridge) : listed.minus(fridge);
    const double out_ohm = listed.ohm(follow(listed, loop.out, listed.plus(loop.battery), plus));
    const double back_ohm =
        listed.ohm(follow(listed, loop.back, minus, listed.minus(loop.battery)));
    for (int source = 0; source < listed.count(); ++source)
        if (listed.element(source).kind == listed.element(loop.battery).kind)
            for (const Elements out : listed.ways(listed.plus(source), plus))
                for (const Elements back : listed.ways(minus, listed.minus(source)))
                    CHECK(out_ohm + back_ohm <= listed.ohm(out) + listed.ohm(back) + 1e-9);
}

void checkBridges(const Listed& listed, const Survey& survey) {
    std::vector<int> bridges;
    if (survey.loop)
        for (int i = 0; i < listed.count(); ++i)
            if (std::ranges::all_of(listed.supplies(survey.loop->reversed),
                                    [&](Elements set) { return holds(set, i); }))
                bridges.push_back(i);
    CHECK(survey.bridges == bridges);
}

void checkParallels(const Listed& listed, const Survey& survey) {
    const auto rings = listed.rings([&](int i) { return listed.isWay(i); });
    const auto together = [](const std::vector<int>& members, int one, int other) {
        return std::ranges::find(members, one) != members.end() &&
               std::ranges::find(members, other) != members.end();
    };
    for (int one = 0; one < listed.count(); ++one)
        for (int other = one; other < listed.count(); ++other) {
            const bool on_a_ring = std::ranges::any_of(
                rings, [&](Elements ring) { return holds(ring, one) && holds(ring, other); });
            const auto groups =
                std::ranges::count_if(survey.parallels, [&](const ParallelWays& ways) {
                    return together(ways.elements, one, other);
                });
            CHECK(groups == (on_a_ring ? 1 : 0));
        }
    for (const ParallelWays& ways : survey.parallels) {
        std::set<int> inside;
        std::set<int> outside;
        for (int i = 0; i < listed.count(); ++i) {
            const bool member = std::ranges::find(ways.elements, i) != ways.elements.end();
            if (listed.element(i).kind != ElementKind::Meter && !listed.isOpen(i))
                (member ? inside : outside).insert({listed.element(i).from, listed.element(i).to});
        }
        std::vector<int> nodes;
        std::ranges::set_intersection(inside, outside, std::back_inserter(nodes));
        CHECK(ways.nodes == nodes);
    }
}

/// Whether there are ways and all of them pass a fuse.
bool allPass(const std::vector<Elements>& ways, int fuse) {
    return !ways.empty() &&
           std::ranges::all_of(ways, [&](Elements way) { return holds(way, fuse); });
}

void checkProtection(const Listed& listed, const Survey& survey) {
    std::size_t next = 0;
    for (int fuse = 0; fuse < listed.count(); ++fuse) {
        if (!listed.isFuse(fuse))
            continue;
        REQUIRE(next < survey.protections.size());
        const Protection& protection = survey.protections[next++];
        CHECK(protection.element == fuse);
        CHECK(protection.rating_a.has_value() == (listed.element(fuse).kind == ElementKind::Fuse));
        if (protection.rating_a)
            CHECK(*protection.rating_a == 1.0 + fuse);
        std::vector<int> protects;
        std::vector<int> feeds;
        double thinnest = 0;
        for (int i = 0; i < listed.count(); ++i) {
            if (listed.isConsumer(i) && allPass(listed.waysFromPlus(listed.plus(i)), fuse))
                feeds.push_back(i);
            if (i == fuse || !listed.isDrawnWay(i) ||
                !allPass(listed.waysFromPlusToElement(i), fuse))
                continue;
            protects.push_back(i);
            if (listed.element(i).kind == ElementKind::Conductor)
                thinnest = thinnest == 0 ? listed.element(i).area_mm2
                                         : std::min(thinnest, listed.element(i).area_mm2);
        }
        CHECK(protection.protects == protects);
        CHECK(protection.feeds == feeds);
        REQUIRE(protection.thinnest.has_value() == (thinnest > 0));
        if (protection.thinnest)
            CHECK(listed.element(*protection.thinnest).area_mm2 == thinnest);
    }
    CHECK(next == survey.protections.size());
}

void checkUnfused(const Listed& listed, const Survey& survey) {
    const auto passes_fuse = [&](Elements way) {
        for (const int i : asList(way))
            if (listed.isFuse(i))
                return true;
        return false;
    };
    std::vector<int> unfused;
    std::vector<int> several;
    for (int i = 0; i < listed.count(); ++i) {
        if (listed.element(i).kind != ElementKind::Conductor)
            continue;
        const auto ways = listed.waysFromPlusToElement(i);
        if (ways.empty())
            continue;
        bool one_guards = false;
        for (int fuse = 0; fuse < listed.count(); ++fuse)
            one_guards = one_guards || (listed.isFuse(fuse) && allPass(ways, fuse));
        if (!std::ranges::all_of(ways, passes_fuse))
            unfused.push_back(i);
        else if (!one_guards)
            several.push_back(i);
    }
    std::vector<int> found;
    for (const Unfused& one : survey.unfused)
        found.push_back(one.element);
    CHECK(found == unfused);
    CHECK(survey.behind_several == several);
    for (const Unfused& one : survey.unfused) {
        const auto reaches = [&](int source) {
            return !listed
                        .paths([&](int i) { return listed.isDrawnWay(i) && !listed.isFuse(i); },
                               listed.plus(source),
                               listed.element(one.element).from)
                        .empty();
        };
        CHECK(reaches(one.source));
        for (int i = 0; i < listed.count(); ++i)
            if (listed.element(i).kind == ElementKind::Battery && reaches(i))
                CHECK(listed.element(one.source).kind == ElementKind::Battery);
    }
}

/// Everything through which a source's current to a consumer may flow.
Elements usedBy(const Listed& listed, int consumer) {
    Elements used = 0;
    for (int source = 0; source < listed.count(); ++source) {
        if (!listed.isSource(source))
            continue;
        const auto out = listed.ways(listed.plus(source), listed.plus(consumer));
        const auto back = listed.ways(listed.minus(consumer), listed.minus(source));
        if (out.empty() || back.empty())
            continue;
        for (const auto* ways : {&out, &back})
            for (const Elements way : *ways)
                used |= way;
    }
    return used;
}

void checkSharing(const Listed& listed, const Survey& survey) {
    std::vector<Sharing> sharings;
    for (int i = 0; survey.loop && i < listed.count(); ++i) {
        if (!listed.isConsumer(i) || i == listed.network.subject())
            continue;
        const Elements used = usedBy(listed, i);
        Sharing sharing{.consumer = i};
        for (const Step& step : survey.loop->out)
            if (holds(used, step.element))
                sharing.out.push_back(step.element);
        for (const Step& step : survey.loop->back)
            if (holds(used, step.element))
                sharing.back.push_back(step.element);
        if (!sharing.out.empty() || !sharing.back.empty())
            sharings.push_back(sharing);
    }
    CHECK(survey.sharings == sharings);
}

void checkPolarity(const Listed& listed, const Survey& survey) {
    const auto is_on = [&](int node, bool plus, int but) {
        for (int i = 0; i < listed.count(); ++i)
            if (listed.isSource(i) && i != but &&
                listed.areJoined(node, plus ? listed.plus(i) : listed.minus(i)))
                return true;
        return false;
    };
    std::vector<Misplaced> misplaced;
    std::vector<int> shorted;
    for (int i = 0; i < listed.count(); ++i) {
        const Misplaced place{i,
                              is_on(listed.plus(i), false, i) && !is_on(listed.plus(i), true, i),
                              is_on(listed.minus(i), true, i) && !is_on(listed.minus(i), false, i)};
        const bool both = place.plus_on_minus && place.minus_on_plus;
        const bool any = place.plus_on_minus || place.minus_on_plus;
        if ((listed.isConsumer(i) && any) || (listed.isSource(i) && both))
            misplaced.push_back(place);
        if (listed.isSource(i) && listed.areJoined(listed.plus(i), listed.minus(i)))
            shorted.push_back(i);
    }
    CHECK(survey.misplaced == misplaced);
    CHECK(survey.shorted == shorted);
}

} // namespace

TEST_CASE("the survey of a random network is what the listing of every path says", "[survey]") {
    struct Seen {
        int loops = 0, reversed = 0, bridges = 0, parallels = 0, protects = 0, feeds = 0;
        int unfused = 0, several = 0, sharings = 0, misplaced = 0, shorted = 0, islands = 0;
    } seen;
    for (std::uint64_t seed = 1; seed <= networks; ++seed) {
        INFO("seed " << seed);
        const Network network = drawNetwork(seed);
        REQUIRE(network.elements.size() <= 12);
        const Listed listed(network);
        const Survey survey = network::survey(network);
        checkIslands(listed, survey);
        checkLoop(listed, survey);
        checkBridges(listed, survey);
        checkParallels(listed, survey);
        checkProtection(listed, survey);
        checkUnfused(listed, survey);
        checkSharing(listed, survey);
        checkPolarity(listed, survey);
        seen.loops += survey.loop.has_value();
        seen.reversed += survey.loop && survey.loop->reversed;
        seen.bridges += survey.bridges.size() > 1;
        seen.parallels += !survey.parallels.empty();
        for (const Protection& protection : survey.protections) {
            seen.protects += !protection.protects.empty();
            seen.feeds += !protection.feeds.empty();
        }
        seen.unfused += !survey.unfused.empty();
        seen.several += !survey.behind_several.empty();
        seen.sharings += !survey.sharings.empty();
        seen.misplaced += !survey.misplaced.empty();
        seen.shorted += !survey.shorted.empty();
        seen.islands += survey.islands.size() > 1;
    }
    // Every kind of answer came up often enough to have been tried.
    for (const int count : {seen.loops,
                            seen.reversed,
                            seen.bridges,
                            seen.parallels,
                            seen.protects,
                            seen.feeds,
                            seen.unfused,
                            seen.several,
                            seen.sharings,
                            seen.misplaced,
                            seen.shorted,
                            seen.islands})
        CHECK(count >= 15);
}
