// SPDX-License-Identifier: MIT
// Steady points of unit and batteries.
#include "characteristics.h"

#include "bench.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ebbline::study {
namespace {

constexpr int unit_points = 9;
constexpr int charge_points = 21;    // every 5 %: the corners of the open-circuit line lie on them
constexpr double probe_a = 1;        // what a battery is loaded with
constexpr double settling_s = 300;   // five of its slow time constant of 60 s
constexpr double settled_charge = 1; // where it is loaded so long

Part partOf(const Network& network, std::size_t element) {
    return *network.installation.findPart(network.elements[element].part);
}

double highestVolts(const Network& network) {
    double highest_v = 0;
    for (const Part& part : network.installation.parts)
        if (const auto* charger = std::get_if<Charger>(&part.body))
            highest_v = std::max(highest_v, charger->voltage_v);
    return highest_v;
}

/// One job per voltage. The cut-out is held off: what the unit would draw below it decides when a
/// battery gets there.
std::vector<Netlist> unitRuns(const Network& network, const Models& models) {
    constexpr double below_v = 0.5;
    constexpr double least_above_v = 3.6; // a 12 V supply on charge stands so far above the cut-out
    const Thresholds thresholds = thresholdsOf(network);
    const double scale = thresholds.cut_out_v > 18 ? 2 : 1;
    const double from_v = thresholds.cut_out_v - scale * below_v;
    const double to_v =
        std::min(thresholds.highest_v - 0.1,
                 std::max(thresholds.cut_out_v + scale * least_above_v, highestVolts(network)));
    std::vector<Netlist> runs;
    runs.reserve(unit_points);
    for (int i = 0; i < unit_points; ++i) {
        runs.push_back(steadyRun(network.installation,
                                 models,
                                 partOf(network, static_cast<std::size_t>(network.subject())),
                                 from_v + (to_v - from_v) * i / (unit_points - 1)));
    }
    return runs;
}

/// The mean power just before it is called.
double idleWatts(const Waveform& waveform) {
    constexpr double before_s = -0.01;
    double watts = 0;
    for (std::size_t i = 0; i < waveform.time_s.size() && waveform.time_s[i] < before_s; ++i)
        watts = waveform.volts[i] * waveform.amps[i];
    return std::max(0.0, watts);
}

std::vector<UnitPoint> readUnit(const std::vector<Netlist>& runs, std::span<Solution> solutions) {
    std::vector<UnitPoint> points;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const Start start = start::read(requireSolved(std::move(solutions[i])), runs[i]);
        if (start.running_a && start.running_v)
            points.push_back({.volts = *start.running_v,
                              .running_w = *start.running_v * *start.running_a,
                              .idle_w = idleWatts(start.waveform)});
    }
    return points;
}

/// The battery with a small load; the unit, which every circuit has, draws next to nothing.
Netlist
batteryRun(const Network& network, const Models& models, Part battery, double charge, double s) {
    std::get<Battery>(battery.body).charge_pct = 100 * charge;
    Part unit = partOf(network, static_cast<std::size_t>(network.subject()));
    auto& body = std::get<Controller>(unit.body);
    body.cut_in_v = body.cut_in_24_v = 1000; // never
    body.build_s = 0.1;
    body.retry_s = std::max(s, 1.0);
    Part load{.id = "probe-load", .body = Load{.law = "current", .current_a = probe_a}};
    return netlist::build(
        bench(network.installation, std::move(battery), ElementKind::Battery, {unit, load}),
        models,
        {.accuracy = Accuracy::Smooth, .held_off = true, .attempts = s > 0 ? 2 : 1});
}

const std::vector<double>& vectorAt(const Solved& solved, int index) {
    return solved.vectors[static_cast<std::size_t>(index)];
}

/// Settled resistance over the ohmic part of it, from the last instant of a long run.
double settledOver(const Solved& solved, const Probe& probe) {
    double volts = 0;
    for (const int inside : probe.inside_v)
        volts += vectorAt(solved, inside).back();
    const double ohmic_v =
        vectorAt(solved, probe.ohms).back() * vectorAt(solved, probe.current).back();
    return ohmic_v == 0 ? 1 : 1 + volts / ohmic_v;
}

std::vector<BatteryPoint> readBattery(const std::vector<Netlist>& runs,
                                      std::span<Solution> solutions) {
    const Solved settled = requireSolved(std::move(solutions.back()));
    const double over_ohmic = settledOver(settled, runs.back().probes[0]);
    std::vector<BatteryPoint> points;
    for (std::size_t i = 0; i + 1 < runs.size(); ++i) {
        const Solved solved = requireSolved(std::move(solutions[i]));
        const Probe& probe = runs[i].probes[0];
        points.push_back({.charge = static_cast<double>(i) / (charge_points - 1),
                          .open_v = vectorAt(solved, probe.source_v).front(),
                          .ohm = over_ohmic * vectorAt(solved, probe.ohms).front()});
    }
    return points;
}

std::vector<Solution> runAll(Engine& engine, const std::vector<Netlist>& runs) {
    std::vector<Job> jobs;
    jobs.reserve(runs.size());
    for (const Netlist& run : runs)
        jobs.push_back(run.job);
    return engine.run(jobs);
}

template <class Point>
Point lerp(const Point& one, const Point& other, double share);

template <>
UnitPoint lerp(const UnitPoint& one, const UnitPoint& other, double share) {
    return {.volts = std::lerp(one.volts, other.volts, share),
            .running_w = std::lerp(one.running_w, other.running_w, share),
            .idle_w = std::lerp(one.idle_w, other.idle_w, share)};
}
template <>
BatteryPoint lerp(const BatteryPoint& one, const BatteryPoint& other, double share) {
    return {.charge = std::lerp(one.charge, other.charge, share),
            .open_v = std::lerp(one.open_v, other.open_v, share),
            .ohm = std::lerp(one.ohm, other.ohm, share)};
}

template <class Point>
Point between(const std::vector<Point>& points, double Point::* key, double value) {
    if (points.empty())
        return {};
    const auto next = std::ranges::lower_bound(points, value, {}, key);
    if (next == points.begin())
        return points.front();
    if (next == points.end())
        return points.back();
    const Point& before = *std::prev(next);
    return lerp(before, *next, (value - before.*key) / ((*next).*key - before.*key));
}

} // namespace

UnitPoint unitAt(const std::vector<UnitPoint>& points, double volts) {
    return between(points, &UnitPoint::volts, volts);
}

BatteryPoint batteryAt(const std::vector<BatteryPoint>& points, double charge) {
    return between(points, &BatteryPoint::charge, charge);
}

std::vector<std::size_t> batteriesOf(const Network& network) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < network.elements.size(); ++i)
        if (network.elements[i].kind == ElementKind::Battery)
            found.push_back(i);
    return found;
}

const Controller& unitOf(const Network& network) {
    return std::get<Controller>(network.installation.findPart(network.installation.subject)->body);
}

Thresholds thresholdsOf(const Network& network) {
    const Controller& unit = unitOf(network);
    const double nominal_v = unit.nominal_v > 0 ? unit.nominal_v : network.installation.nominal_v;
    return nominal_v > 18 ? Thresholds{unit.cut_out_24_v, unit.cut_in_24_v, unit.highest_24_v}
                          : Thresholds{unit.cut_out_v, unit.cut_in_v, unit.highest_v};
}

Characteristics characterize(Engine& engine, const Network& network, const Models& models) {
    Characteristics found;
    const std::vector<Netlist> unit_runs = unitRuns(network, models);
    std::vector<Solution> unit_solutions = runAll(engine, unit_runs);
    found.unit = readUnit(unit_runs, unit_solutions);
    for (const std::size_t battery : batteriesOf(network)) {
        std::vector<Netlist> runs;
        runs.reserve(charge_points + 1);
        for (int i = 0; i < charge_points; ++i)
            runs.push_back(batteryRun(network,
                                      models,
                                      partOf(network, battery),
                                      static_cast<double>(i) / (charge_points - 1),
                                      0));
        runs.push_back(
            batteryRun(network, models, partOf(network, battery), settled_charge, settling_s));
        std::vector<Solution> solutions = runAll(engine, runs);
        found.batteries.push_back(readBattery(runs, solutions));
    }
    return found;
}

} // namespace ebbline::study
