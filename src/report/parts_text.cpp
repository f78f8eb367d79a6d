// SPDX-License-Identifier: MIT
// What can be drawn and what it can be made of, for people.
#include "parts_units.h"
#include "sheet.h"

#include "ebbline/report.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <fmt/core.h>

#include <algorithm>

namespace ebbline::report {
namespace {

using Items = std::vector<std::string>;

constexpr std::size_t main_keys = 5; ///< of a model; a controller has some forty

class Writer {
public:
    Writer(const Catalogues& catalogues, const Listing& listing)
        : m_catalogues(catalogues), m_listing(listing) {}

    std::string write() {
        if (m_listing.catalogues)
            addCatalogues();
        if (m_listing.terminals)
            addTerminals();
        if (m_listing.keys)
            addKeys();
        return m_sheet.text();
    }

private:
    void begin(std::string_view title) {
        if (!m_sheet.text().empty())
            m_sheet.addLine("");
        m_sheet.addLine(title);
    }

    void add(const std::string& label, const Items& items, std::string_view between = ", ") {
        m_sheet.add("  " + text::escapeControls(label), joined(items, between));
    }

    void addCatalogues() {
        begin(words(
            "Conductors: class, and the sizes it comes in, mm²; awg and sae sizes need no class"));
        for (const auto& [name, sizes] : m_catalogues.conductors)
            add(name, firsts(sizes));
        addJoints();
        begin(words("Fuses: style, and its ratings, A"));
        for (const auto& [style, elements] : m_catalogues.fuses)
            add(style, firsts(elements));
        begin(words("Chassis: material, and mΩ from one bond into it"));
        for (const auto& [name, mohm] : m_catalogues.chassis)
            add(name, {fmt::format("{}", mohm)});
        begin(words("Faults: kind, and what it is on"));
        for (const auto& [id, fault] : m_catalogues.faults)
            add(id, {fault.of + ": " + text::escapeControls(fault.name)});
        for (const auto& [kind, models] : m_catalogues.parts) {
            begin(words("Models of kind {}: name, and the first of its keys", kind));
            for (const auto& [name, keys] : models)
                add(name, modelKeys(kind, keys));
        }
    }

    static Items firsts(const std::map<double, double>& rows) {
        Items items;
        for (const auto& [key, value] : rows)
            items.push_back(fmt::format("{}", key));
        return items;
    }

    void addJoints() {
        begin(words("Joints: kind, and mΩ by condition"));
        for (const auto& [kind, conditions] : m_catalogues.joints) {
            Items items;
            for (const auto& [condition, mohm] : sortedByOhm(conditions))
                items.push_back(fmt::format("{} {}", condition, mohm));
            add(kind, items);
        }
    }

    static std::vector<std::pair<std::string, double>>
    sortedByOhm(const std::map<std::string, double>& conditions) {
        std::vector<std::pair<std::string, double>> rows(conditions.begin(), conditions.end());
        std::ranges::sort(
            rows, {}, [](const auto& row) { return std::pair(row.second, row.first); });
        return rows;
    }

    /// In the order in which the list of keys has them.
    static Items modelKeys(const std::string& kind, const std::map<std::string, Value>& values) {
        Items items;
        for (const installation::Key& key : installation::keys()) {
            const auto place = values.find(std::string(key.name));
            if (key.kind != kind || place == values.end())
                continue;
            if (items.size() == main_keys) {
                items.push_back(words("and {} more", values.size() - main_keys));
                break;
            }
            items.push_back(
                fmt::format("{} {}", key.name, text::escapeControls(written(place->second))));
        }
        return items;
    }

    void addTerminals() {
        begin(words("Terminals, by kind of part; run ends are RUN.from and RUN.to, of a multi-core "
                    "run RUN.1.from"));
        for (const std::string& kind : installation::kinds()) {
            Items names =
                installation::terminalsOf({.body = installation::makeBody(kind).value_or(Body{})});
            if (kind == "bus-bar")
                names = {words("1 ... as many as it has studs")};
            if (kind == "panel")
                names = {"feed", words("1 ... as many as it has ways")};
            if (kind == "meter")
                names = {words("none: its leads lie on others")};
            if (kind == "chassis")
                names = {words("none: reached through bonds")};
            add(kind, names);
        }
    }

    void addKeys() {
        std::string_view kind;
        for (const installation::Key& key : installation::keys()) {
            if (key.kind != kind)
                begin(key.kind);
            kind = key.kind;
            Items items{
                rangeOf(key), term(nameOf(key.key_class)), words(std::string(key.meaning).c_str())};
            if (const auto unit = writtenUnit(unitOf(key.name));
                !unit.empty() && key.type == installation::ValueType::Number)
                items.front() += " " + std::string(unit);
            add(std::string(key.name), items, "; ");
        }
    }

    const Catalogues& m_catalogues;
    const Listing& m_listing;
    Sheet m_sheet{22};
};

} // namespace

std::string writeParts(const Catalogues& catalogues, const Listing& listing) {
    return Writer(catalogues, listing).write();
}

} // namespace ebbline::report
