// SPDX-License-Identifier: MIT
// Catalogues: what one can buy, and kinds of fault.
#include "format.h"
#include "reading.h"
#include "rule_tables.h"

#include "ebbline/words.h"

#include <array>
#include <cmath>
#include <span>

namespace ebbline::file {
namespace {

constexpr double largest = 1e9;
constexpr double smallest_s = 0.02; // that an eye sees as a flash
constexpr double smallest = 1e-9;   // of what a circuit divides by

/// What battery.lib and fuse.lib want to know of a chemistry and of a style.
constexpr std::array<std::string_view, 15> battery_parameters{"cells",
                                                              "rest_0_v",
                                                              "rest_10_v",
                                                              "rest_25_v",
                                                              "rest_50_v",
                                                              "rest_75_v",
                                                              "rest_100_v",
                                                              "resistance_mohm_ah",
                                                              "cold_pct",
                                                              "empty_pct",
                                                              "aged_pct",
                                                              "fast_pct",
                                                              "fast_s",
                                                              "slow_pct",
                                                              "slow_s"};
constexpr std::array<std::string_view, 6> fuse_parameters{
    "link_pct", "link_s", "ends_s", "parting_times", "warm_pct", "aged_pct"};

class CatalogueReader {
public:
    CatalogueReader(const toml::table& table, Problems& problems, Catalogues& catalogues)
        : m_top(table, problems), m_problems(problems), m_catalogues(catalogues) {}

    void read() {
        m_top.skip("ebbline");
        m_top.skip("what");
        each("conductor", [&](Fields& fields) { readConductor(fields); });
        each("joint", [&](Fields& fields) { readJoint(fields); });
        each("fuse-element", [&](Fields& fields) { readElement(fields); });
        each("fuse-style", [&](Fields& fields) {
            readParameters(fields, fuse_parameters, m_catalogues.fuse_styles);
        });
        each("chemistry", [&](Fields& fields) {
            readParameters(fields, battery_parameters, m_catalogues.chemistries);
        });
        each("chassis-material", [&](Fields& fields) { readMaterial(fields); });
        each("fault", [&](Fields& fields) { readFaultKind(fields); });
        each("lamp", [&](Fields& fields) { readLamp(fields); });
        for (const RuleTableKind& kind : ruleTableKinds())
            each(std::string(kind.name), [&](Fields& fields) {
                kind.read(fields, takeSource(fields), m_catalogues.rules);
            });
        for (const std::string& kind : installation::kinds())
            each(kind, [&](Fields& fields) { readPart(fields, kind); });
        m_top.finish(phrase("unknown key {} in a catalogue"));
    }

private:
    template <class Read>
    void each(const std::string& key, const Read& read) {
        static constexpr std::array<std::string_view, 5> certainties{
            "standard", "common practice", "measured", "memory", "ESTIMATE"};
        m_top.eachTable(key, [&](const toml::table& block) {
            Fields fields(block, m_problems);
            static_cast<void>(fields.requireText("source"));
            if (fields.requireText("certainty"))
                static_cast<void>(valueOf(*fields.take("certainty"),
                                          {.name = "certainty",
                                           .type = installation::ValueType::Text,
                                           .words = certainties},
                                          m_problems));
            read(fields);
            fields.finish(phrase("unknown key {} in {}"), "[[" + key + "]]");
        });
    }

    /// Adds a problem for an entry that was there before.
    template <class Map, class Name, class Entry>
    void put(Map& map, const Name& name, Entry entry, Fields& fields) {
        if (!map.emplace(name, std::move(entry)).second)
            m_problems.add(fields.table().source(), words("the catalogue has this entry already"));
    }

    void readConductor(Fields& fields) {
        const auto id = fields.requireText("id");
        const toml::node* rows = fields.take("mohm_per_m");
        if (rows == nullptr || rows->as_array() == nullptr) {
            m_problems.add(fields.table().source(),
                           words("a conductor wants mohm_per_m = [[mm2, mohm/m], ...]"));
            return;
        }
        std::map<double, double> sizes;
        for (const toml::node* row : elements(*rows))
            if (const auto size = sizeOf(*row); size && !sizes.insert(*size).second)
                m_problems.add(row->source(), words("this size has a row already"));
        if (id)
            put(m_catalogues.conductors, *id, std::move(sizes), fields);
    }

    std::optional<std::pair<double, double>> sizeOf(const toml::node& row) {
        const toml::array* pair = row.as_array();
        if (pair == nullptr || pair->size() != 2) {
            m_problems.add(row.source(), words("a size wants [mm2, mohm/m]"));
            return std::nullopt;
        }
        const auto number = [&](std::size_t i, std::string_view name) {
            return valueOf((*pair)[i], {.name = name, .min = smallest, .max = largest}, m_problems);
        };
        const auto area_mm2 = number(0, "mm2");
        const auto mohm_per_m = number(1, "mohm/m");
        if (!area_mm2 || !mohm_per_m)
            return std::nullopt;
        return std::pair(std::get<double>(*area_mm2), std::get<double>(*mohm_per_m));
    }

    /// A resistance for every condition there is.
    void readJoint(Fields& fields) {
        const auto kind = fields.requireText("kind");
        std::map<std::string, double> by_condition;
        for (const std::string_view condition : installation::findKey("joint", "condition")->words)
            if (const auto mohm = requireNumber(fields, std::string(condition) + "_mohm", 0))
                by_condition[std::string(condition)] = *mohm;
        if (kind)
            put(m_catalogues.joints, *kind, std::move(by_condition), fields);
    }

    void readElement(Fields& fields) {
        const auto style = fields.requireText("style");
        const auto rating_a = requireNumber(fields, "rating_a", smallest);
        const auto mohm = requireNumber(fields, "resistance_mohm", smallest);
        if (style && rating_a && mohm)
            put(m_catalogues.fuses[*style], *rating_a, *mohm, fields);
    }

    /// Every parameter of a circuit that an entry of the catalogue gives, under its id.
    void readParameters(Fields& fields,
                        std::span<const std::string_view> names,
                        std::map<std::string, std::map<std::string, double>>& entries) {
        const auto id = fields.requireText("id");
        std::map<std::string, double> parameters;
        for (const std::string_view name : names)
            if (const auto value = requireNumber(fields, std::string(name), smallest))
                parameters[std::string(name)] = *value;
        if (id)
            put(entries, *id, std::move(parameters), fields);
    }

    void readMaterial(Fields& fields) {
        const auto id = fields.requireText("id");
        const auto mohm = requireNumber(fields, "spread_mohm", 0);
        if (id && mohm)
            put(m_catalogues.chassis, *id, *mohm, fields);
    }

    /// A row of flashes must end before the next begins.
    void readLamp(Fields& fields) {
        const auto on = fields.requireText("on");
        LampPattern lamp;
        if (const toml::node* steady = fields.take("steady"))
            if (const auto value = valueOf(
                    *steady, {.name = "steady", .type = installation::ValueType::Flag}, m_problems))
                lamp.steady = std::get<bool>(*value);
        if (!lamp.steady) {
            constexpr int most = 20;
            constexpr double longest_s = 60;
            const auto number = [&](const char* key, double min, double max) {
                return requireNumber(fields, key, min, max).value_or(min);
            };
            lamp.flashes = static_cast<int>(std::lround(number("flashes", 1, most)));
            lamp.flash_s = number("flash_s", smallest_s, longest_s);
            lamp.gap_s = number("gap_s", smallest_s, longest_s);
            lamp.every_s = number("every_s", smallest_s, longest_s);
            if (lamp.flashes * (lamp.flash_s + lamp.gap_s) > lamp.every_s)
                m_problems.add(fields.table().source(),
                               words("the flashes of a lamp do not fit into 'every_s'"));
        }
        if (on)
            put(m_catalogues.lamps, *on, lamp, fields);
    }

    void readFaultKind(Fields& fields) {
        const auto id = fields.requireText("id");
        FaultKind fault{.name = fields.requireText("name").value_or(""),
                        .of = fields.requireText("of").value_or(""),
                        .set = {}};
        if (const toml::table* set = fields.takeTable("set"))
            for (const auto& [name, node] : *set) {
                const installation::Key* key = installation::findKey(fault.of, name.str());
                if (key == nullptr)
                    m_problems.add(
                        name.source(),
                        words("{} has no key {}", inQuotes(fault.of), inQuotes(name.str())));
                else if (const auto value = valueOf(node, *key, m_problems))
                    fault.set[std::string(name.str())] = *value;
            }
        if (id)
            put(m_catalogues.faults, *id, std::move(fault), fields);
    }

    std::optional<double>
    requireNumber(Fields& fields, const std::string& key, double min, double max = largest) {
        if (!fields.table().contains(key))
            m_problems.add(fields.table().source(), words("missing '{}'", key));
        return fields.takeNumber(key, min, max);
    }

    void readPart(Fields& fields, const std::string& kind) {
        const auto id = fields.requireText("id");
        std::map<std::string, Value> values;
        for (const installation::Key& key : installation::keys())
            if (key.kind == kind)
                if (const toml::node* node = fields.take(key.name))
                    if (const auto value = valueOf(*node, key, m_problems))
                        values[std::string(key.name)] = *value;
        if (id)
            put(m_catalogues.parts[kind], *id, std::move(values), fields);
    }

    Fields m_top;
    Problems& m_problems;
    Catalogues& m_catalogues;
};

} // namespace

void readCatalogue(const std::string& name, std::string_view text, Catalogues& catalogues) {
    Problems problems(name, text);
    const auto parsed = parse(text, problems);
    // Half a catalogue would only make its users complain of what is in the other half.
    problems.throwIfAny();
    if (parsed && fitsFormat(parsed->table, "parts", problems))
        CatalogueReader(parsed->table, problems, catalogues).read();
    problems.throwIfAny();
}

} // namespace ebbline::file
