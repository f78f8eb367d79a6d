// SPDX-License-Identifier: MIT
// Random R-L-C networks: the engine against gnucap, another circuit simulator, over time.
#include "published.h"
#include "scratch.h"
#include "small_circuit.h"
#include "start/trace.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <map>
#include <random>
#include <sstream>
#include <stdexcept>

using namespace ebbline;

namespace {

constexpr double stop_s = 3e-3;
constexpr int instants = 300;

/// Generated cards, the same for both simulators, and what they connect.
struct RandomNetwork {
    std::string cards;
    double volts = 0;
    int nodes = 0;
    std::map<char, int> count; ///< by letter
};

/// A tree of resistors and R-L in a row on a stepped source, capacitors and resistors to ground,
/// and one or two resistors across; at least one of each kind.
class Generator {
public:
    explicit Generator(unsigned seed) : m_random(seed) {}

    RandomNetwork make() {
        m_made.volts = draw(0, 1) < 0.5 ? 12 : 24;
        m_made.nodes = 4 + pick(5);
        m_made.cards = "V1 1 0 DC " + text::number(m_made.volts) + "\n";
        for (int node = 2; node <= m_made.nodes; ++node) {
            addBranch(1 + pick(node - 1), node);
            if (node == m_made.nodes || draw(0, 1) < 0.6)
                add('C', name(node), "0", spread(20e-6, 2e-3));
            else
                add('R', name(node), "0", spread(0.5, 20));
        }
        for (int extra = 1 + pick(2); extra > 0; --extra) {
            const int from = 1 + pick(m_made.nodes - 1);
            add('R', name(from), name(from + 1 + pick(m_made.nodes - from)), spread(0.1, 20));
        }
        return m_made;
    }

private:
    double draw(double least, double most) {
        // Not std::uniform_real_distribution: libraries differ in it.
        return least + (most - least) * static_cast<double>(m_random()) / 18446744073709551616.0;
    }
    int pick(int below) { return std::min(below - 1, static_cast<int>(draw(0, below))); }
    double spread(double least, double most) {
        return std::exp(draw(std::log(least), std::log(most)));
    }
    static std::string name(int node) { return std::to_string(node); }

    void add(char kind, const std::string& from, const std::string& to, double value) {
        m_made.cards += kind + std::to_string(++m_made.count[kind]) + " " + from + " " + to + " " +
                        text::number(value) + (kind == 'R' ? "" : " ic=0") + "\n";
    }
    void addBranch(int from, int to) {
        if (to > 2 && draw(0, 1) < 0.5) {
            add('R', name(from), name(to), spread(0.05, 5));
            return;
        }
        const std::string inner = name(100 + to);
        add('R', name(from), inner, spread(0.05, 5));
        add('L', inner, name(to), spread(10e-6, 1e-3));
    }

    std::mt19937_64 m_random;
    RandomNetwork m_made;
};

/// gnucap writes 3.5u for 3.5e-6.
double readScaled(const std::string& word) {
    static const std::map<std::string, double> scales{{"", 1},
                                                      {"T", 1e12},
                                                      {"G", 1e9},
                                                      {"Meg", 1e6},
                                                      {"K", 1e3},
                                                      {"m", 1e-3},
                                                      {"u", 1e-6},
                                                      {"n", 1e-9},
                                                      {"p", 1e-12},
                                                      {"f", 1e-15}};
    std::size_t used = 0;
    const double value = std::stod(word, &used);
    return value * scales.at(word.substr(used));
}

/// Rows of time and the voltages of nodes 2 ... as gnucap prints them.
std::vector<std::vector<double>> readRows(const std::string& said) {
    std::vector<std::vector<double>> rows;
    std::istringstream lines(said.substr(std::min(said.size(), said.find("#Time"))));
    std::string line;
    std::getline(lines, line);
    while (std::getline(lines, line)) {
        std::istringstream words(line);
        rows.emplace_back();
        for (std::string word; words >> word;)
            rows.back().push_back(readScaled(word));
    }
    return rows;
}

std::vector<std::vector<double>> solveByGnucap(const RandomNetwork& network) {
    const Scratch folder;
    const auto path = folder.path() / "network.ckt";
    std::ofstream file(path);
    file << "* random network\n"
         << network.cards
         << ".options method=trap reltol=1e-6 abstol=1e-9 vntol=1e-9 numdgt=10 out=400\n"
         << ".print tran";
    for (int node = 2; node <= network.nodes; ++node)
        file << " v(" << node << ")";
    // A printed row every microsecond holds its steps to that.
    file << "\n.tran 0 " << stop_s << " 1e-6 uic\n.end\n";
    file.close();
    FILE* pipe = popen(("gnucap -b " + path.string()).c_str(), "r");
    if (pipe == nullptr)
        throw std::runtime_error("popen");
    std::string said;
    std::array<char, 65536> buffer{};
    while (const std::size_t got = fread(buffer.data(), 1, buffer.size(), pipe))
        said.append(buffer.data(), got);
    if (pclose(pipe) != 0)
        throw std::runtime_error("gnucap (Debian package gnucap) did not run");
    return readRows(said);
}

Solved solveByEngine(const RandomNetwork& network) {
    std::vector<std::string> vectors;
    for (int node = 2; node <= network.nodes; ++node)
        vectors.push_back("v(" + std::to_string(node) + ")");
    return small_circuit::solve({.cards = network.cards,
                                 .models = {},
                                 .vectors = vectors,
                                 .stop_s = stop_s,
                                 .step_s = 5e-7});
}

/// Largest difference of any node at any of the instants, millionths of the source.
double compare(const RandomNetwork& network) {
    const auto rows = solveByGnucap(network);
    REQUIRE(rows.size() == std::size_t{3001});
    const Solved solved = solveByEngine(network);
    double worst_v = 0;
    double moved_v = 0;
    for (int instant = 1; instant <= instants; ++instant) {
        const auto& row = rows.at(static_cast<std::size_t>(instant) * 10);
        REQUIRE(row.size() == static_cast<std::size_t>(network.nodes));
        for (std::size_t i = 0; i + 1 < row.size(); ++i) {
            const double engine_v = start::valueAt(solved.time_s, solved.vectors[i], row[0]);
            worst_v = std::max(worst_v, std::abs(row[i + 1] - engine_v));
            moved_v = std::max(moved_v, std::abs(engine_v));
        }
    }
    CHECK(moved_v > 0.2 * network.volts); // there is something to compare
    return worst_v / network.volts * 1e6;
}

std::string describe(unsigned seed, RandomNetwork& network) {
    return "Network " + std::to_string(seed) + ": " + text::number(network.volts) + " V, " +
           std::to_string(network.nodes) + " nodes, " + std::to_string(network.count['R']) +
           " R, " + std::to_string(network.count['L']) + " L, " +
           std::to_string(network.count['C']) + " C";
}

} // namespace

TEST_CASE("random networks run as in another simulator", "[published][engine]") {
    published::Sheet sheet("networks", "N");
    for (unsigned seed = 1; seed <= 20; ++seed) {
        RandomNetwork network = Generator(seed).make();
        CAPTURE(seed, network.cards);
        sheet.near(
            {describe(seed, network) + ": largest difference at 300 instants", "ppm of the source"},
            compare(network),
            0,
            published::within(2000),
            {"gnucap, the same cards", published::Certainty::Derived});
    }
    sheet.keepMeasured();
}
