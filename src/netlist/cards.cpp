// SPDX-License-Identifier: MIT
// Pieces of circuit text.
#include "cards.h"

#include "ebbline/text.h"

namespace ebbline::netlist {
namespace {

/// How closely a run is followed.
struct Steps {
    double relative_tolerance = 1e-6;
    /// What ngspice multiplies the allowed truncation error by: 7 of itself, but 1 with XSPICE
    /// devices in the circuit unless `xtrtol` says otherwise.
    double truncation = 1;
    /// The stretches of waiting and of steady running are what it bounds; ngspice also takes from
    /// it how close two breakpoints may lie and how small a step may be.
    double largest_s = 0.2;
    /// Several times what the scenes have while something happens.
    std::uint64_t usual_points = 40000;
};

Steps stepsOf(Accuracy accuracy) {
    switch (accuracy) {
    case Accuracy::Draft: // half the points of a smooth run, off by 2.5 mV at most in the scenes
        return {.relative_tolerance = 1e-5, .truncation = 7, .largest_s = 1, .usual_points = 2000};
    case Accuracy::Smooth:
        return {.relative_tolerance = 1e-5};
    case Accuracy::Final: // with a truncation of 7 one of the scenes was off by 1.3 mV
        return {.relative_tolerance = 1e-6};
    case Accuracy::Tight:
        return {.relative_tolerance = 1e-7, .usual_points = 400000};
    }
    return {};
}

std::optional<double> asNumber(const std::optional<Value>& value) {
    if (!value)
        return std::nullopt;
    if (const auto* number = std::get_if<double>(&*value))
        return *number;
    if (const auto* flag = std::get_if<bool>(&*value))
        return *flag ? 1.0 : 0.0;
    return std::nullopt;
}

} // namespace

std::string nodeName(int node) {
    return node == 0 ? "0" : "n" + std::to_string(node);
}

std::string parameter(const std::string& name, double value) {
    return " " + name + "=" + text::number(value);
}

std::string keyParameters(const Part& part, const std::map<std::string, double>& instead) {
    std::map<std::string, double> values;
    for (const installation::Key& key : installation::keys())
        if (key.kind == installation::kindOf(part) && key.in_circuit)
            if (const auto value = asNumber(installation::get(part, key)))
                values[std::string(key.name)] = *value;
    for (const auto& [name, value] : instead)
        values[name] = value;
    std::string text;
    for (const auto& [name, value] : values)
        text += parameter(name, value);
    return text;
}

bool hasMeanTorque(Accuracy accuracy) {
    return accuracy == Accuracy::Draft || accuracy == Accuracy::Smooth;
}

std::string options(Accuracy accuracy) {
    const Steps steps = stepsOf(accuracy);
    // Trapezoidal, because Gear misses trips and damps what is not damped. chgtol at its default
    // makes states that are exactly zero unsolvable; abstol and vntol suit volts and amperes.
    // pivrel: the order of elimination is chosen once, at the first instant; with the default of
    // 1e-3 a pivot that was good then may be too small after an event, and the run ends in a time
    // step too small or goes on in steps of microseconds. Over 300 scenes with lengths and fuses
    // changed at random 0.9 left 3 unsolved, 0.5 none; over 1,200 random wirings 0.5 left 4, 0.1
    // none.
    return ".options method=trap pivrel=0.1 reltol=" + text::number(steps.relative_tolerance) +
           " xtrtol=" + text::number(steps.truncation) + " chgtol=1e-4 abstol=1e-6 vntol=1e-6\n";
}

std::uint64_t usualPoints(Accuracy accuracy, double stop_s, std::size_t openings) {
    const Steps steps = stepsOf(accuracy);
    constexpr double times = 4;         // of the longest steps, for what happens while it waits
    constexpr std::uint64_t starts = 2; // in the usual; every opening may be one more
    return steps.usual_points + openings * steps.usual_points / starts +
           static_cast<std::uint64_t>(times * stop_s / steps.largest_s);
}

std::string transient(Accuracy accuracy, double stop_s) {
    const std::string step = text::number(stepsOf(accuracy).largest_s);
    return ".tran " + step + " " + text::number(stop_s) + " 0 " + step + " uic\n";
}

std::string stepSource(const std::string& node,
                       bool closed,
                       const std::vector<std::pair<double, bool>>& steps) {
    const auto point = [](double at_s, bool is_closed) {
        return " " + text::number(at_s) + (is_closed ? " 1" : " 0");
    };
    std::string text = "v" + node + " " + node + " 0 pwl(0" + (closed ? " 1" : " 0");
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto [at_s, is_closed] = steps[i];
        if (i + 1 < steps.size() && steps[i + 1].first <= at_s + 1e-3)
            continue; // a later change at the same time wins
        text += point(at_s, closed) + point(at_s + 1e-3, is_closed);
        closed = is_closed;
    }
    return text + ")\n";
}

} // namespace ebbline::netlist
