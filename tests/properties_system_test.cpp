// SPDX-License-Identifier: MIT
// Rules that hold whatever the numbers, each where it holds, on random installations.
#include "drawn.h"
#include "energy.h"
#include "random_loops.h"
#include "runs.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>
#include <random>
#include <utility>

using namespace ebbline;
using random_loops::Kind;

namespace {

/// A third under sanitizers.
constexpr std::uint64_t many = runs::isSanitised() ? 4 : 12;

constexpr RunSettings held_off{.held_off = true, .attempts = 1};
constexpr RunSettings acting{.attempts = 1};

/// Fair and thin loops in turn: some start, some give up.
std::vector<Installation> drawSome(std::uint64_t first_seed) {
    std::vector<Installation> some;
    for (std::uint64_t seed = first_seed; seed < first_seed + many; ++seed)
        some.push_back(random_loops::draw(seed % 2 == 0 ? Kind::Fair : Kind::Thin, seed).drawn);
    return some;
}

/// The same instants for every circuit: a largest step that is never shortened, because no charge
/// is looked at for its error, and each step solved to the last digits. Two circuits that are the
/// same in another form then differ by rounding alone, whereas steps chosen for each leave up to a
/// tenth of a millivolt between them. Until half a second after full speed; mean torque.
void onOneGrid(Netlist& netlist) {
    const Installation& scene = netlist.network.installation;
    const auto& unit = std::get<Controller>(scene.findPart(scene.subject)->body);
    netlist.job.stop_s = netlist.lead_s + unit.delay_s + unit.position_s + unit.spin_up_s + 0.5;
    std::string& text = netlist.job.circuit;
    const auto replace_line = [&](const char* begin, const std::string& line) {
        const std::size_t place = text.find(begin);
        REQUIRE(place != std::string::npos);
        text.replace(place, text.find('\n', place) - place, line);
    };
    replace_line(".options",
                 ".options method=trap pivrel=0.5 reltol=1e-7 chgtol=1e9 abstol=1e-9 vntol=1e-9");
    replace_line(".tran", ".tran 2e-4 " + text::number(netlist.job.stop_s) + " 0 2e-4 uic");
}

/// Held off, so that the lowest voltage is that of the whole start.
constexpr RunSettings smooth{.accuracy = Accuracy::Smooth, .held_off = true, .attempts = 1};

/// Two forms of the same installation.
using Forms = std::pair<Installation, Installation>;

/// Largest difference of the lowest voltages, as they are and filtered, as a share of them; the
/// second form's are `times` the first's.
double compareForms(const std::vector<Forms>& all,
                    double times,
                    const std::function<void(Netlist&)>& change_second) {
    std::vector<runs::Wanted> wanted;
    for (const auto& [one, other] : all) {
        wanted.push_back({.installation = one, .settings = smooth, .change = onOneGrid});
        wanted.push_back({.installation = other, .settings = smooth, .change = change_second});
    }
    const std::vector<Start> starts = runs::startsOf(wanted);
    double worst = 0;
    for (std::size_t i = 0; i < starts.size(); i += 2) {
        CAPTURE(i);
        CHECK(starts[i].outcome == starts[i + 1].outcome);
        for (const auto& key : {&Start::lowest_v, &Start::sensed_lowest_v}) {
            const double volts = (starts[i].*key).value();
            const double same_v = (starts[i + 1].*key).value() / times;
            worst = std::max(worst, std::abs(same_v - volts) / volts);
        }
    }
    WARN("largest difference " << worst << " of the voltage in " << all.size() << " pairs");
    return worst;
}

// --- More resistance

/// More resistance somewhere in the supply loop, by chance where and how much; no inductance.
Installation worsened(Installation scene, std::mt19937_64& random) {
    const auto below = [&](std::uint64_t count) { return random() % count; };
    const double mohm = static_cast<double>(1 + below(60));
    Run& run = scene.runs[below(scene.runs.size())];
    switch (below(4)) {
    case 0:
        run.broken_pct = static_cast<double>(5 + below(45));
        break;
    case 1:
        run.cores[0].joint_to.resistance_mohm =
            run.cores[0].joint_to.resistance_mohm.value_or(0) + mohm;
        break;
    case 2:
        std::get<Isolator>(scene.parts[1].body).resistance_mohm += mohm;
        break;
    default:
        std::get<Fuse>(scene.parts[2].body).holder_mohm += mohm;
    }
    return scene;
}

/// Greatest power below which a constant-power load on this feed settles: V^2 C (R + r) / (L + R r
/// C) with the lowest voltage of the attempt.
double steadyPower(const random_loops::Pair& pair, double volts) {
    const double farad = pair.setup.unit.capacitor_uf * 1e-6;
    const double esr = pair.setup.unit.esr_mohm * 1e-3;
    const double ohm = pair.setup.loop_ohm;
    return volts * volts * farad * (ohm + esr) / (pair.setup.loop_henry + ohm * esr * farad);
}

struct Tally {
    int checked = 0;
    double worst = 0;
    void add(double value) {
        ++checked;
        worst = checked == 1 ? value : std::max(worst, value);
    }
};

struct MoreResistance {
    Tally rise_v;      ///< of the lowest filtered voltage, held off
    int trips = 0;     ///< that were made worse
    int turned = 0;    ///< of them into starts
    int undecided = 0; ///< of those, with a margin under 5 mV
};

void compareWorse(const random_loops::Pair& pair,
                  const std::array<Start, 4>& starts,
                  MoreResistance& found) {
    const auto& [free_before, free_after, before, after] = starts;
    const double lowest_v = free_before.sensed_lowest_v.value();
    const double power_w = free_before.peak_a.value() * free_before.source_v.value();
    // Where the rule holds: no fuse opens, and the load is below the power that begins to swing.
    const bool holds = free_before.outcome != Outcome::FuseOpens &&
                       free_after.outcome != Outcome::FuseOpens &&
                       power_w < steadyPower(pair, lowest_v);
    if (holds)
        found.rise_v.add(free_after.sensed_lowest_v.value() - lowest_v);
    if (before.outcome != Outcome::Trips)
        return;
    ++found.trips;
    if (after.outcome != Outcome::Starts)
        return;
    ++found.turned;
    found.undecided += std::abs(lowest_v - pair.setup.unit.cut_out_v) < 5e-3 ? 1 : 0;
}

MoreResistance runMoreResistance() {
    std::mt19937_64 random(7);
    std::vector<random_loops::Pair> pairs;
    std::vector<runs::Wanted> wanted;
    for (std::uint64_t seed = 1001; seed < 1001 + many; ++seed) {
        pairs.push_back(random_loops::draw(seed % 3 == 0 ? Kind::Fair : Kind::Thin, seed));
        const Installation& drawn = pairs.back().drawn;
        const Installation worse = worsened(drawn, random);
        for (const RunSettings& settings : {held_off, acting})
            for (const Installation& one : {drawn, worse})
                wanted.push_back({.installation = one, .settings = settings});
    }
    const std::vector<Start> starts = runs::startsOf(wanted);
    MoreResistance found;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        CAPTURE(i);
        compareWorse(pairs[i],
                     {starts[4 * i], starts[4 * i + 1], starts[4 * i + 2], starts[4 * i + 3]},
                     found);
    }
    return found;
}

// --- The same installation drawn in another way

/// One run's ohms and henries halved by halving length and joints.
Installation halved(Installation scene, const std::string& id) {
    Run& run = drawn::runOf(scene, id);
    run.length_m = run.length() / 2;
    for (Joint* joint : {&run.cores[0].joint_from, &run.cores[0].joint_to})
        joint->resistance_mohm = joint->resistance_mohm.value_or(0) / 2;
    return scene;
}

/// The same run once more beside itself.
Installation doubled(Installation scene, const std::string& id) {
    Run twin = drawn::runOf(scene, id);
    twin.id += "-twin";
    scene.runs.push_back(twin);
    return scene;
}

/// Out becomes back and back becomes out.
Installation exchanged(Installation scene) {
    const auto swap = [](Terminal& terminal) {
        if (terminal.part != "house" && terminal.part != "fridge")
            return;
        terminal.terminal = terminal.terminal == "plus" ? "minus" : "plus";
    };
    for (Run& run : scene.runs)
        for (Core& core : run.cores) {
            swap(core.from);
            swap(core.to);
        }
    return scene;
}

// --- 12 V and 24 V

/// The same at twice the voltage: every R and L times 4, C a quarter, currents half, thresholds and
/// the motor's constant twice. Two blocks in a row of half the capacity have four times the
/// resistance of one.
Installation atTwiceTheVoltage(Installation scene) {
    scene.nominal_v = 24;
    auto& battery = std::get<Battery>(scene.parts[0].body);
    battery.nominal_v = 24;
    battery.capacity_ah /= 2;
    std::get<Isolator>(scene.parts[1].body).resistance_mohm *= 4;
    auto& fuse = std::get<Fuse>(scene.parts[2].body);
    fuse.rating_a /= 2;
    fuse.holder_mohm *= 4;
    fuse.resistance_mohm = fuse.resistance_mohm.value_or(0) * 4;
    for (Run& run : scene.runs) {
        run.length_m = run.length() * 4;
        for (Joint* joint : {&run.cores[0].joint_from, &run.cores[0].joint_to})
            joint->resistance_mohm = joint->resistance_mohm.value_or(0) * 4;
    }
    Controller& unit = drawn::unitOf(scene);
    unit.cut_out_24_v = 2 * unit.cut_out_v;
    unit.cut_in_24_v = 2 * unit.cut_in_v;
    unit.highest_24_v = 2 * unit.highest_v;
    unit.capacitor_uf /= 4;
    for (double* ohm : {&unit.esr_mohm, &unit.input_mohm, &unit.winding_ohm, &unit.winding_uh})
        *ohm *= 4;
    for (double* amps : {&unit.position_a, &unit.current_limit_a, &unit.speed_gain})
        *amps /= 2;
    unit.motor_constant *= 2;
    return scene;
}

/// What no key reaches: the leak across the terminals, the pull-up of the call terminal with its
/// contact and threshold, and the scales on which the instants of the thresholds are looked for.
void scaleFixedNumbers(Netlist& netlist) {
    onOneGrid(netlist);
    for (const auto& [from, to] :
         {std::pair("Rbleed plus minus 1e5", "Rbleed plus minus 4e5"),
          std::pair("Rcall link call 5000", "Rcall link call 20000"),
          std::pair("resistance_mohm=1\n", "resistance_mohm=4\n"),
          std::pair("log(1e8/shut)", "log(4e8/shut)"),
          std::pair("above_two adc_bridge(in_low={2-1e3*kept_off} in_high={2-1e3*kept_off})",
                    "above_two adc_bridge(in_low={4-1e3*kept_off} in_high={4-1e3*kept_off})"),
          std::pair("Bfindout findout 0 V=1000", "Bfindout findout 0 V=500"),
          std::pair("Bfindin findin 0 V=1000", "Bfindin findin 0 V=500"),
          std::pair("Bfindhigh findhigh 0 V=1000", "Bfindhigh findhigh 0 V=500")}) {
        std::string& text = netlist.job.circuit;
        const std::size_t place = text.find(from);
        REQUIRE(place != std::string::npos);
        text.replace(place, std::string(from).size(), to);
    }
}

std::string outcomesOf(const std::vector<Start>& starts) {
    const auto count = [&](Outcome outcome) {
        return std::to_string(std::ranges::count(starts, outcome, &Start::outcome));
    };
    return count(Outcome::Starts) + " start, " + count(Outcome::Trips) + " give up, " +
           count(Outcome::Stalls) + " stall";
}

// --- Energy

/// max(0.1 % of what was drawn, 10 mJ).
double energyBound(const energy::Account& account) {
    return std::max(1e-3 * account.in, 1e-2);
}

struct Balance {
    double worst_share = 0; ///< of the bound
    double worst_j = 0;
    std::vector<Start> starts;
    std::map<std::string, int> noticed; ///< part -> in how many runs leaving it out is noticed
};

Balance runEnergy() {
    std::vector<runs::Wanted> wanted;
    for (std::uint64_t seed = 3001; seed < 3001 + many; ++seed)
        wanted.push_back(
            {.installation = random_loops::draw(static_cast<Kind>(seed % 3), seed).drawn,
             .settings = acting,
             .change = energy::want});
    Balance balance;
    runs::runMany(wanted, [&](std::size_t i, const runs::Run& run) {
        const energy::Account account = energy::read(run);
        const double bound = energyBound(account);
        CAPTURE(i, account.in, account.shaft, account.heat, account.stored);
        CHECK(std::abs(account.error()) <= bound);
        balance.worst_share = std::max(balance.worst_share, std::abs(account.error()) / bound);
        balance.worst_j = std::max(balance.worst_j, std::abs(account.error()));
        balance.starts.push_back({.outcome = run.start.outcome});
        const auto leave_out = [&](const std::string& what, double joules) {
            balance.noticed[what] += std::abs(account.error() + joules) > bound ? 1 : 0;
        };
        for (const auto& [what, joules] : account.heat)
            leave_out("heat of " + what, joules);
        for (const auto& [what, joules] : account.stored)
            leave_out("stored in " + what, joules);
        leave_out("shaft", account.shaft);
    });
    return balance;
}

} // namespace

TEST_CASE("more resistance lowers the voltage and never makes a start of giving up",
          "[properties][slow]") {
    const MoreResistance found = runMoreResistance();
    CHECK(found.rise_v.checked * 10 >= static_cast<int>(many) * 9);
    CHECK(found.rise_v.worst <= 2e-3);
    CHECK(found.trips * 3 >= static_cast<int>(many));
    CHECK(found.turned == found.undecided);
    WARN(found.rise_v.checked << " installations with more resistance: the lowest filtered voltage "
                              << "rises by at most " << found.rise_v.worst * 1e3 << " mV; "
                              << found.trips << " of them give up, " << found.turned
                              << " then start");
}

TEST_CASE("two equal runs in parallel are one of half the ohms and henries", "[properties]") {
    std::vector<Forms> forms;
    for (const Installation& one : drawSome(2001)) {
        const std::string id = one.runs[forms.size() % one.runs.size()].id;
        forms.emplace_back(halved(one, id), doubled(one, id));
    }
    CHECK(compareForms(forms, 1, onOneGrid) <= 1e-9);
}

TEST_CASE("out and back exchanged leave the voltage at the controller", "[properties]") {
    std::vector<Forms> forms;
    for (const Installation& one : drawSome(4001))
        forms.emplace_back(one, exchanged(one));
    CHECK(compareForms(forms, 1, onOneGrid) <= 1e-6);
}

TEST_CASE("twice the voltage with everything scaled is the same start", "[properties]") {
    std::vector<Forms> forms;
    for (const Installation& one : drawSome(5001))
        forms.emplace_back(one, atTwiceTheVoltage(one));
    CHECK(compareForms(forms, 2, scaleFixedNumbers) <= 1e-6);
}

TEST_CASE("what the battery gives is heat, work on the gas, or stored", "[properties][energy]") {
    const Balance balance = runEnergy();
    for (const char* what : {"heat of battery",
                             "heat of wiring",
                             "heat of fuse",
                             "heat of inverter",
                             "heat of winding",
                             "heat of friction",
                             "heat of electronics and fan",
                             "heat of input switch",
                             "stored in rotor",
                             "stored in capacitor",
                             "shaft"}) {
        CAPTURE(what);
        CHECK(balance.noticed.at(what) > 0);
    }
    WARN("largest error " << balance.worst_j * 1e3 << " mJ, " << balance.worst_share
                          << " of the bound; " << outcomesOf(balance.starts));
}
