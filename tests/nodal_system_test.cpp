// SPDX-License-Identifier: MIT
// Node voltages of random networks of resistances: the engine against a dense nodal solve.
#include "drawn.h"
#include "runs.h"

#include "ebbline/network.h"

#include <catch2/catch.hpp>
#include <fmt/core.h>

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <random>

using namespace ebbline;

namespace {

constexpr int by_hand = 800;  ///< networks put together element by element
constexpr int as_drawn = 200; ///< installations, built into networks by the program
constexpr double source_v = 12.6;

class Draw {
public:
    explicit Draw(std::uint64_t seed) : m_engine(seed) {}
    int below(int count) { return static_cast<int>(m_engine() % static_cast<unsigned>(count)); }
    int from(int low, int high) { return low + below(high - low + 1); }
    bool oneIn(int count) { return below(count) == 0; }
    /// Between the two, evenly over the decades.
    double decades(double low, double high) {
        const double share = static_cast<double>(m_engine() >> 11) * 0x1p-53;
        return low * std::pow(high / low, share);
    }

private:
    std::mt19937_64 m_engine;
};

/// A resistance between two numbered points; the battery is one of `source_v` in a row with it.
struct Resistor {
    int from = 0;
    int to = 0;
    double ohm = 0;
    bool battery = false; ///< `from` is its minus
};

/// Potentials of all points against point 0 by G v = i, with nothing of the program's.
std::vector<double> solveNodal(int points, const std::vector<Resistor>& resistors) {
    Eigen::MatrixXd conductance = Eigen::MatrixXd::Zero(points, points);
    Eigen::VectorXd current = Eigen::VectorXd::Zero(points);
    for (const Resistor& one : resistors) {
        const double siemens = 1 / one.ohm;
        conductance(one.from, one.from) += siemens;
        conductance(one.to, one.to) += siemens;
        conductance(one.from, one.to) -= siemens;
        conductance(one.to, one.from) -= siemens;
        if (one.battery) {
            current(one.to) += source_v * siemens;
            current(one.from) -= source_v * siemens;
        }
    }
    const auto rest = points - 1; // point 0 is the reference
    const Eigen::VectorXd volts =
        conductance.bottomRightCorner(rest, rest).fullPivLu().solve(current.tail(rest));
    std::vector<double> all{0};
    all.insert(all.end(), volts.begin(), volts.end());
    return all;
}

/// The circuit of a reduced network: its branches by the program's own model, and its devices.
class Circuit {
public:
    explicit Circuit(const Network& network) : m_network(network) {
        std::string text = "* resistances at rest\n.options method=trap reltol=1e-6\n";
        for (std::size_t i = 0; i < network.branches.size(); ++i) {
            const Branch& branch = network.branches[i];
            text += fmt::format(
                "xb{} {} {} joint ohm={}\n", i, node(branch.from), node(branch.to), branch.ohm);
        }
        for (std::size_t i = 0; i < network.elements.size(); ++i)
            if (!network.elements[i].linear)
                text += device(i, network.elements[i]);
        for (const std::string& vector : job.vectors)
            text += ".save " + vector + "\n";
        text += ".tran 1e-3 2e-3 0 1e-3 uic\n";
        text += file::embeddedModels().circuits.at("joint") + ".end\n";
        job.circuit = text;
        job.stop_s = 2e-3;
        job.highest_v = source_v;
    }

    Job job;

    /// Potentials of all nodes; those within a merged branch by their share of its resistance.
    [[nodiscard]] std::vector<double> restore(const Solved& solved) const {
        std::vector<double> volts(m_network.nodes.size(), std::nan(""));
        volts[0] = 0;
        for (std::size_t i = 0; i < m_saved.size(); ++i)
            volts[static_cast<std::size_t>(m_saved[i])] = solved.vectors[i].back();
        for (const Branch& branch : m_network.branches)
            restore(branch, volts);
        return volts;
    }

private:
    std::string node(int index) {
        if (index == 0)
            return "0";
        const std::string name = "n" + std::to_string(index);
        if (std::ranges::find(m_saved, index) == m_saved.end()) {
            job.potentials.push_back(static_cast<int>(m_saved.size()));
            m_saved.push_back(index);
            job.vectors.push_back("v(" + name + ")");
        }
        return name;
    }

    /// Batteries are a source and a resistance, all others a resistance; a fridge at rest is open.
    std::string device(std::size_t index, const Element& element) {
        if (element.kind == ElementKind::Controller)
            return "";
        const std::string from = node(element.from);
        const std::string to = node(element.to);
        if (element.kind != ElementKind::Battery)
            return fmt::format("r{} {} {} {}\n", index, from, to, element.ohm);
        return fmt::format(
            "vb{0} e{0} {1} {2}\nrb{0} e{0} {3} {4}\n", index, from, source_v, to, element.ohm);
    }

    void restore(const Branch& branch, std::vector<double>& volts) const {
        const auto at = [&](int node) -> double& { return volts[static_cast<std::size_t>(node)]; };
        const double amps = (at(branch.from) - at(branch.to)) / branch.ohm;
        for (const Member& member : branch.members) {
            const Element& element = m_network.elements[static_cast<std::size_t>(member.element)];
            const bool is_onward = member.share > 0;
            const int begin = is_onward ? element.from : element.to;
            const int end = is_onward ? element.to : element.from;
            if (end != branch.to)
                at(end) = at(begin) - amps * std::abs(member.share) * element.ohm;
        }
    }

    const Network& m_network;
    std::vector<int> m_saved; ///< node of each vector
};

/// Largest difference between the solved and the expected potentials, as a share of the source.
double worstOf(const std::vector<double>& found, const std::vector<double>& expected) {
    REQUIRE(found.size() == expected.size());
    double worst = 0;
    for (std::size_t i = 0; i < found.size(); ++i)
        worst = std::max(worst, std::abs(found[i] - expected[i]));
    return worst / source_v;
}

void addElement(Network& network, ElementKind kind, int from, int to, double ohm) {
    const std::string name = "e" + std::to_string(network.elements.size());
    network.elements.push_back(
        {.name = name,
         .kind = kind,
         .from = from,
         .to = to,
         .ohm = ohm,
         .linear = kind == ElementKind::Joint || kind == ElementKind::Conductor,
         .part = name});
}

int addNode(Network& network) {
    const int node = static_cast<int>(network.nodes.size());
    network.nodes.push_back("n" + std::to_string(node) + ".t");
    return node;
}

double drawOhm(Draw& draw) {
    return draw.oneIn(4) ? draw.decades(0.1, 100) : draw.decades(1e-4, 0.1);
}

ElementKind drawWay(Draw& draw) {
    static constexpr std::array kinds{
        ElementKind::Conductor, ElementKind::Conductor, ElementKind::Joint, ElementKind::Fuse};
    return kinds.at(static_cast<std::size_t>(draw.below(4)));
}

/// A tree over the nodes so that all hang together; long rows where `row` is wanted.
void addTree(Draw& draw, Network& network, int nodes, bool row) {
    while (static_cast<int>(network.nodes.size()) < nodes) {
        const int last = static_cast<int>(network.nodes.size()) - 1;
        const int near = row && !draw.oneIn(4) ? last : draw.below(last + 1);
        const int node = addNode(network);
        // Drawn either way round.
        if (draw.oneIn(2))
            addElement(network, drawWay(draw), near, node, drawOhm(draw));
        else
            addElement(network, drawWay(draw), node, near, drawOhm(draw));
    }
}

void addMesh(Draw& draw, Network& network, int count) {
    const int nodes = static_cast<int>(network.nodes.size());
    for (int i = 0; i < count; ++i) {
        const int from = draw.below(nodes);
        const int to = (from + 1 + draw.below(nodes - 1)) % nodes;
        addElement(network, drawWay(draw), from, to, drawOhm(draw));
    }
}

/// A second core beside some of the elements.
void addParallels(Draw& draw, Network& network) {
    for (std::size_t i = 1, count = network.elements.size(); i < count; ++i)
        if (draw.oneIn(5)) {
            const Element beside = network.elements[i];
            addElement(network, beside.kind, beside.from, beside.to, drawOhm(draw));
        }
}

/// A few places joined to one sheet of metal.
void addBonds(Draw& draw, Network& network) {
    const int nodes = static_cast<int>(network.nodes.size());
    const int metal = addNode(network);
    for (int i = 0, count = draw.from(2, 4); i < count; ++i)
        addElement(network, ElementKind::Joint, draw.below(nodes), metal, draw.decades(1e-4, 0.01));
}

Network drawByHand(std::uint64_t seed) {
    Draw draw(seed);
    Network network;
    network.nodes = {"house.minus", "house.plus"};
    addElement(network, ElementKind::Battery, 0, 1, draw.decades(0.002, 0.1));
    // The plus and the minus side hang together through some consumer at least.
    addElement(network, ElementKind::Load, 1, 0, draw.decades(0.5, 50));
    const int nodes = draw.from(3, 29);
    addTree(draw, network, nodes, draw.oneIn(2));
    if (draw.oneIn(2))
        addParallels(draw, network);
    if (draw.oneIn(2))
        addMesh(draw, network, draw.below(nodes));
    if (draw.oneIn(2))
        addBonds(draw, network);
    for (std::size_t i = 0; i < network.elements.size(); ++i) {
        const Element& element = network.elements[i];
        if (element.linear)
            network.branches.push_back({.from = element.from,
                                        .to = element.to,
                                        .ohm = element.ohm,
                                        .members = {{static_cast<int>(i), +1}}});
    }
    return network;
}

std::vector<Resistor> resistorsOf(const Network& network) {
    std::vector<Resistor> resistors;
    for (const Element& element : network.elements)
        resistors.push_back(
            {element.from, element.to, element.ohm, element.kind == ElementKind::Battery});
    return resistors;
}

/// An installation of bus bars joined by runs, bonds and loads, and the same on paper: each bar,
/// post and terminal a point, each run one resistance.
struct Drawn {
    Installation installation;
    std::vector<Terminal> points{{"house", "minus"}, {"house", "plus"}};
    std::vector<Resistor> resistors;

    int point(const Terminal& terminal) {
        const auto place = std::ranges::find(points, terminal);
        if (place != points.end())
            return static_cast<int>(place - points.begin());
        points.push_back(terminal);
        return static_cast<int>(points.size()) - 1;
    }

    /// Resistance of class 5 at 20 C by the table, and two joints that are stated.
    void addRun(Draw& draw, const Terminal& from, const Terminal& to) {
        static constexpr std::array sizes{0.75, 1.5, 2.5, 6.0, 16.0};
        const double area_mm2 = sizes.at(static_cast<std::size_t>(draw.below(5)));
        const double length_m = draw.decades(0.1, 20);
        const double near_mohm = draw.decades(0.1, 100);
        const double far_mohm = draw.decades(0.1, 100);
        const std::string id = "run-" + std::to_string(installation.runs.size());
        installation.runs.push_back({.id = id,
                                     .cores = {{.from = from,
                                                .to = to,
                                                .size = {SizeScale::Mm2, area_mm2},
                                                .joint_from = {.resistance_mohm = near_mohm},
                                                .joint_to = {.resistance_mohm = far_mohm}}},
                                     .length_m = length_m});
        const double mohm_per_m =
            file::embeddedModels().catalogues.conductors.at("class-5").at(area_mm2);
        resistors.push_back(
            {point(from), point(to), (near_mohm + mohm_per_m * length_m + far_mohm) * 1e-3});
    }
    void addPart(const std::string& id, Body body) {
        installation.parts.push_back({.id = id, .body = std::move(body)});
    }
};

Drawn drawInstallation(std::uint64_t seed) {
    Draw draw(seed);
    Drawn drawn;
    drawn.installation.subject = "fridge";
    drawn.addPart("house", Battery{});
    drawn.addPart("fridge", Controller{});
    drawn.resistors.push_back({0, 1, 0.01, true});
    const int bars = draw.from(2, 12);
    const auto bar = [&](int index) {
        return index == 0   ? Terminal{"house", "minus"}
               : index == 1 ? Terminal{"house", "plus"}
                            : Terminal{"bar-" + std::to_string(index), "1"};
    };
    for (int i = 2; i < bars + 2; ++i) {
        drawn.addPart("bar-" + std::to_string(i), BusBar{});
        drawn.addRun(draw, bar(draw.below(i)), bar(i));
    }
    for (int i = 0; i < bars; ++i) {
        const int from = draw.below(bars + 2);
        drawn.addRun(draw, bar(from), bar((from + 1 + draw.below(bars + 1)) % (bars + 2)));
    }
    for (const char* post : {"plus", "minus"})
        drawn.addRun(draw, bar(draw.below(bars + 2)), {"fridge", post});
    for (int i = 0, count = draw.from(1, 3); i < count; ++i) {
        const std::string id = "load-" + std::to_string(i);
        const double ohm = draw.decades(0.5, 20);
        drawn.addPart(id, Load{.resistance_ohm = ohm});
        drawn.addRun(draw, bar(draw.below(bars + 2)), {id, "plus"});
        drawn.addRun(draw, bar(draw.below(bars + 2)), {id, "minus"});
        drawn.resistors.push_back({drawn.point({id, "plus"}), drawn.point({id, "minus"}), ohm});
    }
    drawn.addPart("body", Chassis{.spread_mohm = 1.5});
    for (int i = 0, count = draw.from(2, 4); i < count; ++i) {
        const std::string id = "bond-" + std::to_string(i);
        const double lug_mohm = draw.decades(0.1, 100);
        drawn.addPart(id, Bond{.to = "body", .lug = {.resistance_mohm = lug_mohm}});
        drawn.addRun(draw, bar(draw.below(bars + 2)), {id, "lug"});
        drawn.resistors.push_back(
            {drawn.point({id, "lug"}), drawn.point({"body", "metal"}), (lug_mohm + 1.5) * 1e-3});
    }
    return drawn;
}

/// The network that the program builds, with what its models would say at rest.
Network buildAtRest(const Installation& installation) {
    Network network = network::build(installation, file::embeddedModels().catalogues);
    for (Element& element : network.elements) {
        if (element.kind == ElementKind::Battery)
            element.ohm = 0.01;
        if (element.kind == ElementKind::Load)
            element.ohm = std::get<Load>(installation.findPart(element.part)->body).resistance_ohm;
    }
    return network;
}

std::vector<Solution> runAll(const std::vector<Circuit>& circuits) {
    std::vector<Job> jobs;
    for (const Circuit& circuit : circuits)
        jobs.push_back(circuit.job);
    return runs::makePool()->run(jobs);
}

} // namespace

TEST_CASE("a divider of four resistances is what one works out on paper", "[nodal]") {
    // 12.6 V, 0.1 ohm inside, 0.2 and 0.3 ohm out, 0.6 ohm back to minus.
    Network network;
    network.nodes = {"house.minus", "house.plus", "a.t", "b.t"};
    addElement(network, ElementKind::Battery, 0, 1, 0.1);
    addElement(network, ElementKind::Joint, 1, 2, 0.2);
    addElement(network, ElementKind::Joint, 3, 2, 0.3); // drawn the other way round
    addElement(network, ElementKind::Load, 3, 0, 0.6);
    network.branches = {{.from = 1, .to = 2, .ohm = 0.2, .members = {{1, +1}}},
                        {.from = 3, .to = 2, .ohm = 0.3, .members = {{2, +1}}}};
    const std::vector<double> paper{0, 11.55, 9.45, 6.3};
    CHECK(worstOf(solveNodal(4, resistorsOf(network)), paper) < 1e-12);
    const Network reduced = network::reduce(network);
    REQUIRE(reduced.branches.size() == 1);
    const std::vector<Circuit> circuits{Circuit(reduced)};
    const Solved solved = study::requireSolved(runAll(circuits).front());
    CHECK(worstOf(circuits.front().restore(solved), paper) < 1e-9);
}

TEST_CASE("random networks of resistances have the node voltages of a dense solve",
          "[nodal][slow]") {
    std::vector<Network> networks;
    std::vector<std::vector<double>> expected;
    std::size_t merged = 0;
    std::size_t most_nodes = 0;
    for (std::uint64_t seed = 1; seed <= by_hand; ++seed) {
        const Network network = drawByHand(seed);
        expected.push_back(
            solveNodal(static_cast<int>(network.nodes.size()), resistorsOf(network)));
        most_nodes = std::max(most_nodes, network.nodes.size());
        networks.push_back(network::reduce(network));
        merged += network.branches.size() - networks.back().branches.size();
    }
    CHECK(most_nodes == 30);
    CHECK(merged / 2 >
          static_cast<std::size_t>(by_hand)); // inner nodes to be restored, in each network a few
    std::vector<Circuit> circuits(networks.begin(), networks.end());
    const std::vector<Solution> solutions = runAll(circuits);
    double worst = 0;
    for (std::size_t i = 0; i < solutions.size(); ++i) {
        INFO("seed " << i + 1);
        const Solved solved = study::requireSolved(solutions[i]);
        const double difference = worstOf(circuits[i].restore(solved), expected[i]);
        CHECK(difference < 1e-6);
        worst = std::max(worst, difference);
    }
    WARN("largest difference " << worst << " of the source");
}

TEST_CASE("random drawn installations have the bus bar voltages one works out from the drawing",
          "[nodal][slow]") {
    std::vector<Drawn> drawings;
    std::vector<Network> networks;
    for (std::uint64_t seed = 1; seed <= as_drawn; ++seed) {
        drawings.push_back(drawInstallation(seed));
        networks.push_back(network::reduce(buildAtRest(drawings.back().installation)));
    }
    std::vector<Circuit> circuits(networks.begin(), networks.end());
    const std::vector<Solution> solutions = runAll(circuits);
    double worst = 0;
    for (std::size_t i = 0; i < solutions.size(); ++i) {
        INFO("seed " << i + 1);
        const std::vector<double> volts = circuits[i].restore(study::requireSolved(solutions[i]));
        std::vector<double> found;
        for (const Terminal& point : drawings[i].points)
            found.push_back(volts[static_cast<std::size_t>(networks[i].findNode(point).value())]);
        const int points = static_cast<int>(drawings[i].points.size());
        const double difference = worstOf(found, solveNodal(points, drawings[i].resistors));
        CHECK(difference < 1e-6);
        worst = std::max(worst, difference);
    }
    WARN("largest difference " << worst << " of the source");
}
