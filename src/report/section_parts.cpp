// SPDX-License-Identifier: MIT
// The list of parts: every size in mm2 and as a gauge, every length one way.
#include "parts_units.h"
#include "sections.h"
#include "sheet.h"

#include "ebbline/network.h"
#include "ebbline/telling.h"
#include "ebbline/text.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace ebbline::report {
namespace {

using Items = std::vector<std::string>;

std::string gauge(double value) {
    return value < 1 ? text::number(1 - value) + "/0" : text::number(value);
}

/// The gauge that is nearest in the shops.
double nearestGauge(double area_mm2) {
    constexpr std::array<double, 17> sold{
        24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3};
    return *std::ranges::min_element(sold, {}, [&](double value) {
        return std::abs(std::log(network::awgArea(value) / area_mm2));
    });
}

/// "1.5 mm² (nearest gauge AWG 16, 1.31 mm²)".
std::string bothSizes(const Size& size) {
    switch (size.scale) {
    case SizeScale::Awg:
        return fmt::format("AWG {} ({:.2f} mm²)", gauge(size.value), network::awgArea(size.value));
    case SizeScale::Sae:
        return fmt::format(
            "SAE {} ({:.2f} mm²)", gauge(size.value), network::saeArea(size.value).value_or(0));
    case SizeScale::Mm2:
        break;
    }
    const double nearest = nearestGauge(size.value);
    return fmt::format("{} mm² (nearest gauge AWG {}, {:.2f} mm²)",
                       text::number(size.value),
                       gauge(nearest),
                       network::awgArea(nearest));
}

/// Each different text once, in the order they come.
Items once(const Items& items) {
    Items result;
    for (const std::string& item : items)
        if (std::ranges::find(result, item) == result.end())
            result.push_back(item);
    return result;
}

std::string jointWords(const Joint& joint) {
    if (joint.kind == "none")
        return "no joint";
    std::string words = joint.kind;
    std::ranges::replace(words, '-', ' ');
    if (!joint.connected)
        return words + ", taken off";
    if (joint.resistance_mohm)
        return words + " of " + text::number(*joint.resistance_mohm) + " mΩ";
    return joint.condition == "new" ? words : words + ", " + joint.condition;
}

Fields runRow(const Installation& installation, const Run& run) {
    Items sizes;
    Items ways;
    Items joints;
    for (const Core& core : run.cores) {
        sizes.push_back(bothSizes(core.size) + ", " + core.conductor);
        ways.push_back(core.from.text() + " to " + core.to.text());
        joints.push_back(jointWords(core.joint_from) + " to " + jointWords(core.joint_to));
    }
    Fields row;
    row.set("id", plain(run.id));
    row.set("name",
            plain(run.name.empty() ? drawing::nameOfThing(installation, run.id) : run.name));
    row.set("kind",
            run.cores.size() == 1 ? std::string("cable")
                                  : fmt::format("cable, {} cores", run.cores.size()));
    row.set("sizes", plain(joined(once(sizes), "; ")));
    row.set("length", fmt::format("{:.2f} m", run.length()));
    row.set("ways", plain(joined(ways, "; ")));
    row.set("joints", plain(joined(once(joints), "; ")));
    setText(row, "note", run.note);
    return row;
}

std::string figuresOf(const Battery& battery) {
    std::string words = fmt::format("{}, {} V, {} Ah, {} % charged",
                                    battery.chemistry,
                                    text::number(battery.nominal_v),
                                    text::number(battery.capacity_ah),
                                    text::fixed(battery.charge_pct, 0));
    if (battery.age_pct > 0)
        words += fmt::format(", {} % of its life gone", text::fixed(battery.age_pct, 0));
    if (battery.temperature_c)
        words += fmt::format(", {} °C", text::fixed(battery.temperature_c, 0));
    return words;
}

std::string figuresOf(const Controller& unit) {
    return fmt::format(
        "12 V: low-voltage cut-out {} V, cut-in {} V; 24 V: cut-out {} V, cut-in {} V",
        text::fixed(unit.cut_out_v, 2),
        text::fixed(unit.cut_in_v, 2),
        text::fixed(unit.cut_out_24_v, 2),
        text::fixed(unit.cut_in_24_v, 2));
}

std::string figuresOf(const Load& load) {
    const std::string words =
        load.law == "current" ? text::number(load.current_a) + " A at any voltage"
        : load.law == "power" ? text::number(load.power_w) + " W at any voltage"
                              : text::number(load.resistance_ohm) + " Ω";
    return load.on ? words : words + ", off at the beginning";
}

/// The figures that are asked for in a shop or written on a part: of its own kind's keys the
/// numbers with a unit, in the order of the list of keys.
std::string figuresOf(const Part& part) {
    constexpr std::size_t most = 3;
    const std::string_view kind = installation::kindOf(part);
    Items items;
    for (const installation::Key& key : installation::keys()) {
        const std::string_view unit = unitOf(key.name);
        if (key.kind != kind || unit.empty() || items.size() == most)
            continue;
        const std::optional<Value> value = installation::get(part, key);
        if (!value)
            continue;
        std::string name(key.name.substr(0, key.name.size() - unit.size() - 1));
        std::ranges::replace(name, '_', ' ');
        items.push_back(fmt::format("{} {} {}", name, written(*value), writtenUnit(unit)));
    }
    Part copy = part; // the joints are handed out for changing
    for (const installation::NamedJoint& joint : installation::jointsOf(copy))
        items.push_back(joint.name.substr(joint.name.find('.') + 1) + " " +
                        jointWords(*joint.joint));
    return joined(items);
}

std::string mainFigures(const Part& part) {
    if (const auto* battery = std::get_if<Battery>(&part.body))
        return figuresOf(*battery);
    if (const auto* unit = std::get_if<Controller>(&part.body))
        return figuresOf(*unit);
    if (const auto* load = std::get_if<Load>(&part.body))
        return figuresOf(*load);
    return figuresOf(part);
}

Fields partRow(const Installation& installation, const Part& part) {
    std::string kind(installation::kindOf(part));
    std::ranges::replace(kind, '-', ' ');
    Fields row;
    row.set("id", plain(part.id));
    row.set("name", plain(drawing::nameOfThing(installation, part.id)));
    row.set("kind", kind);
    row.set("figures", plain(mainFigures(part)));
    setText(row, "note", part.note);
    return row;
}

} // namespace

void addParts(const Installation& installation, Fields& page) {
    Fields parts = Fields::type::list;
    for (const Part& part : installation.parts)
        parts.push_back(partRow(installation, part));
    Fields runs = Fields::type::list;
    for (const Run& run : installation.runs)
        runs.push_back(runRow(installation, run));
    page.set("parts", parts);
    page.set("runs", runs);
}

} // namespace ebbline::report
