// SPDX-License-Identifier: MIT
// [[run]] blocks.
#include "reading.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <array>
#include <set>
#include <utility>

namespace ebbline::file {
namespace {

struct SizeKey {
    const char* name;
    SizeScale scale;
};
constexpr std::array<SizeKey, 3> size_keys{
    {{"area_mm2", SizeScale::Mm2}, {"awg", SizeScale::Awg}, {"sae", SizeScale::Sae}}};

const installation::Key& keyOf(std::string_view name) {
    return *installation::findKey("run", name);
}

class RunReader {
public:
    RunReader(Reading& reading, const toml::table& block)
        : m_reading(reading), m_problems(reading.problems), m_fields(block, reading.problems) {}

    std::optional<Run> read() {
        const auto id = takeId(m_reading, m_fields);
        m_run.id = id.value_or("");
        m_run.name = m_fields.takeText("name");
        m_run.note = m_fields.takeText("note");
        takeEnds();
        takeLength();
        takeSizes();
        takeConductors();
        checkAreas();
        takeJoints("joint_from", &Core::joint_from);
        takeJoints("joint_to", &Core::joint_to);
        m_fields.finish(phrase("unknown key {} in a run"));
        if (id && m_run.cores.empty())
            m_reading.unread.insert(*id);
        return id && !m_run.cores.empty() ? std::optional(std::move(m_run)) : std::nullopt;
    }

private:
    void takeEnds() {
        const toml::node* from = m_fields.take("from");
        const toml::node* to = m_fields.take("to");
        if (from == nullptr || to == nullptr) {
            m_problems.add(m_fields.table().source(), words("a run wants 'from' and 'to'"));
            return;
        }
        const auto from_ends = elements(*from);
        const auto to_ends = elements(*to);
        if (from->is_array() != to->is_array() || from_ends.size() != to_ends.size()) {
            m_problems.add(to->source(),
                           words("'from' has {} ends and 'to' {}, expected two texts or two arrays "
                                 "of one length",
                                 from_ends.size(),
                                 to_ends.size()));
            return;
        }
        constexpr std::size_t most_cores = 40;
        if (from_ends.size() > most_cores) {
            m_problems.add(
                from->source(),
                words("'from' has {} ends, expected up to {}", from_ends.size(), most_cores));
            return;
        }
        if (from_ends.empty())
            m_problems.add(from->source(), words("'from' is empty, expected one end per core"));
        for (std::size_t i = 0; i < from_ends.size(); ++i)
            m_run.cores.push_back({.from = endOf(*from_ends[i]), .to = endOf(*to_ends[i])});
    }

    Terminal endOf(const toml::node& node) {
        const auto mention = mentionOf(m_reading, node);
        if (!mention)
            return {};
        m_reading.ends.push_back(*mention);
        return mention->terminal;
    }

    void takeLength() {
        for (const installation::RunNumber& number : installation::runNumbers())
            number.set(m_run, m_fields.takeNumber(keyOf(number.name)));
        const toml::node* route = m_fields.take("route_m");
        if (route != nullptr)
            takeRoute(*route);
        else if (m_fields.take("length_m") == nullptr)
            m_problems.add(m_fields.table().source(), words("a run wants 'length_m' or 'route_m'"));
    }

    void takeRoute(const toml::node& route) {
        m_run.route_m = positionsOf(route, "route_m", 2, m_problems);
        if (m_run.route_m.empty())
            return;
        const bool is_whole = m_run.route_m.size() == route.as_array()->size();
        if (const auto misfit = installation::findMisfit(
                keyOf("length_m"), m_run.length(), words("the length along 'route_m'"));
            misfit && is_whole && !m_run.length_m)
            m_problems.add(route.source(), *misfit);
    }

    /// A node for each core; one value for all is read, and complained of, only once.
    template <class Read>
    void eachCore(std::string_view key, const Read& read) {
        const auto nodes = m_fields.takeEach(
            key,
            m_run.cores.size(),
            phrase("'{}' has {} values, expected one, or one for each of {} cores"));
        for (std::size_t i = 0; i < nodes.size(); ++i)
            if (i > 0 && nodes[i] == nodes[0])
                read(*nodes[i], m_run.cores[i], m_silent);
            else
                read(*nodes[i], m_run.cores[i], m_problems);
    }

    void takeSizes() {
        std::string first_line;
        for (const SizeKey& size_key : size_keys) {
            const toml::node* node = m_fields.take(size_key.name);
            if (node == nullptr)
                continue;
            if (!first_line.empty())
                m_problems.add(node->source(),
                               words("a second size, the first is at line {}, expected one of "
                                     "area_mm2, awg, sae",
                                     first_line));
            first_line = std::to_string(node->source().begin.line);
            const installation::Key& key = keyOf(size_key.name);
            eachCore(key.name, [&](const toml::node& value, Core& core, Problems& problems) {
                if (const auto size = sizeOf(value, key, problems))
                    core.size = {size_key.scale, *size};
            });
        }
        if (first_line.empty())
            m_problems.add(m_fields.table().source(),
                           words("a run wants one of area_mm2, awg, sae"));
    }

    /// A number, or a gauge such as "2/0", which counts down from 1/0 = 0.
    static std::optional<double>
    sizeOf(const toml::node& node, const installation::Key& key, Problems& problems) {
        const std::string text = node.value<std::string>().value_or("");
        if (node.is_string() && key.name != "area_mm2") {
            if (text.size() == 3 && text.ends_with("/0") && text[0] >= '1' && text[0] <= '4')
                return static_cast<double>('1' - text[0]);
            problems.add(node.source(),
                         words("'{}' is {}, expected a number or one of \"1/0\" to \"4/0\"",
                               key.name,
                               inQuotes(text)));
            return std::nullopt;
        }
        const auto value = valueOf(node, key, problems);
        return value ? std::optional(std::get<double>(*value)) : std::nullopt;
    }

    void takeConductors() {
        eachCore("conductor", [&](const toml::node& node, Core& core, Problems& problems) {
            const auto name = textOf(node, "conductor", problems);
            if (name && !m_reading.catalogues.conductors.contains(*name))
                problems.addUnknown(node.source(),
                                    phrase("unknown conductor {}"),
                                    *name,
                                    namesOf(m_reading.catalogues.conductors));
            core.conductor = name.value_or(core.conductor);
        });
    }

    /// Whether the catalogue has the sizes in their classes.
    void checkAreas() {
        const toml::node* node = m_fields.table().get("area_mm2");
        if (node == nullptr)
            return;
        std::set<std::string> said;
        const auto nodes = elements(*node);
        for (std::size_t i = 0; i < m_run.cores.size(); ++i) {
            const Core& core = m_run.cores[i];
            const auto sizes = m_reading.catalogues.conductors.find(core.conductor);
            if (sizes == m_reading.catalogues.conductors.end() ||
                core.size.scale != SizeScale::Mm2 || sizes->second.contains(core.size.value))
                continue;
            const std::string message = noSize(core.conductor, core.size.value, sizes->second);
            if (said.insert(message).second)
                m_problems.add(nodes[i < nodes.size() ? i : 0]->source(), message);
        }
    }

    void takeJoints(const char* name, Joint Core::* member) {
        eachCore(name, [&](const toml::node& node, Core& core, Problems& problems) {
            core.*member = jointOf(m_reading, node, name, problems);
        });
    }

    Reading& m_reading;
    Problems& m_problems;
    Problems m_silent{"", ""};
    Fields m_fields;
    Run m_run;
};

} // namespace

std::optional<Run> takeRun(Reading& reading, const toml::table& block) {
    return RunReader(reading, block).read();
}

} // namespace ebbline::file
