// SPDX-License-Identifier: MIT
// The list of parts: every size in mm2 and as a gauge, every length one way.
#include "parts_units.h"
#include "sections.h"
#include "sheet.h"

#include "ebbline/network.h"
#include "ebbline/telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>

namespace ebbline::report {
namespace {

using Items = std::vector<std::string>;

/// "1.5 mm² (nearest gauge AWG 16, 1.31 mm²)": whoever buys that gauge must see that it is thinner.
std::string shopWords(const Size& size) {
    if (size.scale != SizeScale::Mm2)
        return text::tidyUnits(network::sizeWords(size, Sizes::Both));
    const Size nearest{SizeScale::Awg, network::nearestGauge(size.value)};
    return text::tidyUnits(words("{} (nearest gauge {}, {})",
                                 network::sizeWords(size, Sizes::Drawn),
                                 network::sizeWords(nearest, Sizes::Drawn),
                                 network::sizeWords(nearest, Sizes::Mm2)));
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
        return words("no joint");
    const std::string kind = term(joint.kind);
    if (!joint.connected)
        return words("{}, taken off", kind);
    if (joint.resistance_mohm)
        return words("{} of {} mΩ", kind, text::figure(*joint.resistance_mohm));
    return joint.condition == "new" ? kind : kind + ", " + term(joint.condition);
}

Fields runRow(const Installation& installation, const Run& run) {
    Items sizes;
    Items ways;
    Items joints;
    for (const Core& core : run.cores) {
        sizes.push_back(shopWords(core.size) + ", " + term(core.conductor));
        ways.push_back(words("{} to {}", core.from.text(), core.to.text()));
        joints.push_back(words("{} to {}", jointWords(core.joint_from), jointWords(core.joint_to)));
    }
    Fields row;
    row.set("id", plain(run.id));
    row.set("name",
            plain(run.name.empty() ? drawing::nameOfThing(installation, run.id) : run.name));
    row.set("kind",
            run.cores.size() == 1 ? words("cable") : words("cable, {} cores", run.cores.size()));
    row.set("sizes", plain(joined(once(sizes), "; ")));
    row.set("length", text::fixed(run.length(), 2) + " m");
    row.set("ways", plain(joined(ways, "; ")));
    row.set("joints", plain(joined(once(joints), "; ")));
    setText(row, "note", run.note);
    return row;
}

std::string figuresOf(const Battery& battery) {
    std::string figures = words("{}, {} V, {} Ah, {} % charged",
                                term(battery.chemistry),
                                text::figure(battery.nominal_v),
                                text::figure(battery.capacity_ah),
                                text::fixed(battery.charge_pct, 0));
    if (battery.age_pct > 0)
        figures += words(", {} % of its life gone", text::fixed(battery.age_pct, 0));
    if (battery.temperature_c)
        figures += ", " + text::fixed(battery.temperature_c, 0) + " °C";
    return figures;
}

std::string figuresOf(const Controller& unit) {
    return words("12 V: low-voltage cut-out {} V, cut-in {} V; 24 V: cut-out {} V, cut-in {} V",
                 text::fixed(unit.cut_out_v, 2),
                 text::fixed(unit.cut_in_v, 2),
                 text::fixed(unit.cut_out_24_v, 2),
                 text::fixed(unit.cut_in_24_v, 2));
}

std::string figuresOf(const Load& load) {
    const std::string draws =
        load.law == "current" ? words("{} A at any voltage", text::figure(load.current_a))
        : load.law == "power" ? words("{} W at any voltage", text::figure(load.power_w))
                              : text::figure(load.resistance_ohm) + " Ω";
    return load.on ? draws : words("{}, off at the beginning", draws);
}

std::string spoken(const Value& value) {
    const auto* number = std::get_if<double>(&value);
    return number == nullptr ? written(value) : text::figure(*number);
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
        items.push_back(fmt::format("{} {} {}", term(name), spoken(*value), writtenUnit(unit)));
    }
    Part copy = part; // the joints are handed out for changing
    for (const installation::NamedJoint& joint : installation::jointsOf(copy))
        items.push_back(term(joint.name.substr(joint.name.find('.') + 1)) + " " +
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
    Fields row;
    row.set("id", plain(part.id));
    row.set("name", plain(drawing::nameOfThing(installation, part.id)));
    row.set("kind", term(installation::kindOf(part)));
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
