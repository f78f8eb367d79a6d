// SPDX-License-Identifier: MIT
// Scenes: from a text to an installation, with every error of meaning found on the way.
#include "fields.h"
#include "references.h"

#include "ebbline/file.h"

#include <algorithm>
#include <array>
#include <map>
#include <regex>
#include <utility>

namespace ebbline::file {
namespace {

constexpr std::array reserved{"joints", "runs", "batteries", "surroundings", "plan"};
// Tables of the format that this version does not know how to simulate.
constexpr std::array later_tables{"fault", "spread", "way", "keep-out"};
constexpr std::array size_keys{std::pair{"area_mm2", SizeScale::Mm2},
                               std::pair{"awg", SizeScale::Awg},
                               std::pair{"sae", SizeScale::Sae}};

class SceneReader {
public:
    SceneReader(const toml::table& table, Problems& problems, const Catalogues& catalogues)
        : m_top(table, problems), m_problems(problems), m_catalogues(catalogues) {}

    Installation read() {
        readHead();
        m_top.eachTable("part", [&](const toml::table& block) { readPart(block); });
        m_top.eachTable("run", [&](const toml::table& block) { readRun(block); });
        m_top.eachTable("condition", [&](const toml::table& block) { readCondition(block); });
        m_top.eachTable("event", [&](const toml::table& block) { readEvent(block); });
        for (const char* later : later_tables)
            if (const toml::node* node = m_top.take(later))
                m_problems.add(node->source(), std::string("'") + later + "' is not simulated yet");
        m_top.finish("a scene");
        std::ranges::stable_sort(m_installation.events, {}, &Event::at_s);
        settleSubject();
        checkReferences(m_installation, m_places, m_problems);
        return std::move(m_installation);
    }

private:
    void readHead() {
        m_top.skip("ebbline");
        m_top.skip("what");
        m_installation.title = m_top.takeText("title");
        m_installation.note = m_top.takeText("note");
        m_installation.rules = m_top.takeText("rules");
        m_installation.subject = m_top.takeText("subject");
        if (const toml::node* node = m_top.take("nominal_v")) {
            const auto value = node->value<double>();
            if (value == 12.0 || value == 24.0)
                m_installation.nominal_v = *value;
            else
                m_problems.add(node->source(), "'nominal_v' wants 12 or 24");
        }
        if (const toml::node* node = m_top.take("use"))
            m_problems.add(node->source(), "further catalogues ('use') are not read yet");
        m_top.skip("plan");
        if (const toml::node* node = m_top.take("surroundings");
            node != nullptr && node->is_table())
            readSurroundings(*node->as_table());
    }

    void readSurroundings(const toml::table& block) {
        Fields fields(block, m_problems);
        const auto& key = *installation::findKey("surroundings", "ambient_c");
        m_installation.surroundings.ambient_c =
            fields.takeNumber(key.name, key.min, key.max).value_or(20);
        fields.finish("[surroundings]");
    }

    /// The id of a block if it is well formed and new; remembers its place.
    std::optional<std::string> takeId(Fields& fields) {
        static const std::regex form("[a-z][a-z0-9-]{0,39}");
        auto id = fields.requireText("id");
        if (!id)
            return std::nullopt;
        const toml::source_region& where = fields.take("id")->source();
        if (!std::regex_match(*id, form)) {
            m_problems.add(where,
                           "'" + *id + "' is no id, expected a letter, then up to 39 of a-z 0-9 -");
            return std::nullopt;
        }
        if (std::ranges::find(reserved, *id) != reserved.end() || installation::makeBody(*id)) {
            m_problems.add(where, "'" + *id + "' is a word of the format and cannot be an id");
            return std::nullopt;
        }
        const auto [first, is_new] = m_places.emplace(*id, where);
        if (!is_new) {
            m_problems.add(where,
                           "the id '" + *id + "' is taken, first at line " +
                               std::to_string(first->second.begin.line));
            return std::nullopt;
        }
        return id;
    }

    std::optional<Position> positionOf(const toml::node& node) {
        const toml::array* pair = node.as_array();
        if (pair != nullptr && pair->size() == 2 && (*pair)[0].is_number() &&
            (*pair)[1].is_number())
            return Position{(*pair)[0].value_or(0.0), (*pair)[1].value_or(0.0)};
        m_problems.add(node.source(), "a place wants [x, y] in metres");
        return std::nullopt;
    }

    void readPart(const toml::table& block) {
        Fields fields(block, m_problems);
        const auto id = takeId(fields);
        const auto kind = fields.requireText("kind");
        if (!kind)
            return;
        const auto body = installation::makeBody(*kind);
        if (!body) {
            m_problems.addUnknown(
                fields.take("kind")->source(), "kind", *kind, installation::kinds());
            return;
        }
        Part part{.id = id.value_or(""), .body = *body};
        part.name = fields.takeText("name");
        part.note = fields.takeText("note");
        if (const toml::node* at = fields.take("at_m"))
            part.at_m = positionOf(*at);
        takeModel(fields, *kind, part);
        takeKeys(fields, *kind, part);
        fields.finish("a " + *kind);
        if (id)
            m_installation.parts.push_back(std::move(part));
    }

    void takeModel(Fields& fields, const std::string& kind, Part& part) {
        part.model = fields.takeText("model");
        if (part.model.empty())
            return;
        static const std::map<std::string, std::map<std::string, Value>> none;
        const auto of_kind = m_catalogues.parts.find(kind);
        const auto& models = of_kind == m_catalogues.parts.end() ? none : of_kind->second;
        const auto model = models.find(part.model);
        if (model == models.end()) {
            std::vector<std::string> names;
            names.reserve(models.size());
            for (const auto& [name, values] : models)
                names.push_back(name);
            m_problems.addUnknown(
                fields.take("model")->source(), kind + " model", part.model, names);
            return;
        }
        for (const auto& [name, value] : model->second)
            installation::set(part, *installation::findKey(kind, name), value);
    }

    void takeKeys(Fields& fields, const std::string& kind, Part& part) {
        for (const installation::Key& key : installation::keys())
            if (key.kind == kind)
                if (const toml::node* node = fields.take(key.name))
                    if (const auto value = valueOf(*node, key, m_problems))
                        installation::set(part, key, *value);
        if (auto* stud = std::get_if<Stud>(&part.body))
            if (const toml::node* node = fields.take("stack"))
                for (const toml::node* entry : elements(*node))
                    if (const auto end = terminalOf(*entry))
                        stud->stack.push_back(*end);
    }

    /// The elements of an array, or the node itself where it is none.
    static std::vector<const toml::node*> elements(const toml::node& node) {
        std::vector<const toml::node*> all;
        if (const toml::array* array = node.as_array())
            for (const toml::node& element : *array)
                all.push_back(&element);
        else
            all.push_back(&node);
        return all;
    }

    std::optional<Terminal> terminalOf(const toml::node& node) {
        const std::string text = node.value<std::string>().value_or("");
        const std::size_t dot = text.find('.');
        if (!node.is_string() || dot == std::string::npos) {
            m_problems.add(node.source(), "a terminal wants \"part.terminal\"");
            return std::nullopt;
        }
        Terminal terminal{text.substr(0, dot), text.substr(dot + 1)};
        m_places.emplace(text, node.source());
        return terminal;
    }

    /// One node per core: an array of that length, or one value for all.
    std::vector<const toml::node*>
    perCore(Fields& fields, std::string_view key, std::size_t cores) {
        const toml::node* node = fields.take(key);
        if (node == nullptr)
            return {};
        auto all = elements(*node);
        if (node->as_array() == nullptr)
            return std::vector<const toml::node*>(cores, node);
        if (all.size() == cores)
            return all;
        m_problems.add(node->source(),
                       "'" + std::string(key) + "' has " + std::to_string(all.size()) +
                           " entries, expected " + std::to_string(cores) + ", one per core");
        return {};
    }

    void readRun(const toml::table& block) {
        Fields fields(block, m_problems);
        const auto id = takeId(fields);
        Run run{.id = id.value_or("")};
        run.name = fields.takeText("name");
        run.note = fields.takeText("note");
        takeEnds(fields, run);
        takeLength(fields, run);
        takeSizes(fields, run);
        takeJoints(fields, run);
        fields.finish("a run");
        if (id && !run.cores.empty())
            m_installation.runs.push_back(std::move(run));
    }

    void takeEnds(Fields& fields, Run& run) {
        const toml::node* from = fields.take("from");
        const toml::node* to = fields.take("to");
        if (from == nullptr || to == nullptr) {
            m_problems.add(fields.table().source(), "a run wants 'from' and 'to'");
            return;
        }
        const auto from_ends = elements(*from);
        const auto to_ends = elements(*to);
        if (from->is_array() != to->is_array() || from_ends.size() != to_ends.size()) {
            m_problems.add(to->source(),
                           "'from' has " + std::to_string(from_ends.size()) + " ends and 'to' " +
                               std::to_string(to_ends.size()) + ", expected as many");
            return;
        }
        for (std::size_t i = 0; i < from_ends.size(); ++i) {
            const auto near = terminalOf(*from_ends[i]);
            const auto far = terminalOf(*to_ends[i]);
            run.cores.push_back(
                {.from = near.value_or(Terminal{}), .to = far.value_or(Terminal{})});
        }
    }

    void takeLength(Fields& fields, Run& run) {
        const auto number = [&](const char* name) {
            const auto& key = *installation::findKey("run", name);
            return fields.takeNumber(name, key.min, key.max);
        };
        run.length_m = number("length_m");
        run.spare_m = number("spare_m").value_or(0);
        run.inductance_uh = number("inductance_uh").value_or(run.inductance_uh);
        if (const toml::node* route = fields.take("route_m"))
            for (const toml::node* place : elements(*route))
                if (const auto position = positionOf(*place))
                    run.route_m.push_back(*position);
        if (!run.length_m && run.route_m.size() < 2)
            m_problems.add(fields.table().source(),
                           "a run wants 'length_m' or a 'route_m' of two places or more");
    }

    void takeSizes(Fields& fields, Run& run) {
        const toml::node* first = nullptr;
        for (const auto& [name, scale] : size_keys) {
            const toml::node* node = fields.take(name);
            if (node == nullptr)
                continue;
            if (first != nullptr)
                m_problems.add(node->source(),
                               "a second size, the first is at line " +
                                   std::to_string(first->source().begin.line) +
                                   "; expected one of area_mm2, awg, sae");
            first = node;
            const auto nodes = perCore(fields, name, run.cores.size());
            for (std::size_t i = 0; i < nodes.size(); ++i)
                if (const auto value = sizeOf(*nodes[i], name))
                    run.cores[i].size = {scale, *value};
        }
        if (first == nullptr)
            m_problems.add(fields.table().source(), "a run wants one of area_mm2, awg, sae");
        const auto nodes = perCore(fields, "conductor", run.cores.size());
        for (std::size_t i = 0; i < nodes.size(); ++i)
            run.cores[i].conductor = conductorOf(*nodes[i]);
    }

    /// A number, or a gauge such as "2/0", which counts down from 1/0 = 0.
    std::optional<double> sizeOf(const toml::node& node, const char* name) {
        const std::string text = node.value<std::string>().value_or("");
        if (node.is_string() && std::string_view(name) != "area_mm2")
            if (text.size() == 3 && text.ends_with("/0") && text[0] >= '1' && text[0] <= '4')
                return static_cast<double>('1' - text[0]);
        const auto value = valueOf(node, *installation::findKey("run", name), m_problems);
        return value ? std::optional(std::get<double>(*value)) : std::nullopt;
    }

    std::string conductorOf(const toml::node& node) {
        const std::string name = node.value<std::string>().value_or("");
        if (!m_catalogues.conductors.contains(name)) {
            std::vector<std::string> names;
            names.reserve(m_catalogues.conductors.size());
            for (const auto& [known, sizes] : m_catalogues.conductors)
                names.push_back(known);
            m_problems.addUnknown(node.source(), "conductor", name, names);
        }
        return name;
    }

    void takeJoints(Fields& fields, Run& run) {
        for (const auto& [name, member] :
             {std::pair{"joint_from", &Core::joint_from}, std::pair{"joint_to", &Core::joint_to}}) {
            const auto nodes = perCore(fields, name, run.cores.size());
            for (std::size_t i = 0; i < nodes.size(); ++i)
                run.cores[i].*member = jointOf(*nodes[i]);
        }
    }

    Joint jointOf(const toml::node& node) {
        Joint joint;
        if (const toml::table* block = node.as_table()) {
            Fields fields(*block, m_problems);
            if (const toml::node* kind = fields.take("kind"))
                joint.kind = jointKindOf(*kind);
            if (fields.table().contains("condition"))
                joint.condition = fields.takeText("condition");
            const auto& key = *installation::findKey("joint", "resistance_mohm");
            joint.resistance_mohm = fields.takeNumber(key.name, key.min, key.max);
            fields.skip("condition");
            fields.finish("a joint");
        } else
            joint.kind = jointKindOf(node);
        const auto kind = m_catalogues.joints.find(joint.kind);
        if (kind != m_catalogues.joints.end() && !kind->second.contains(joint.condition))
            m_problems.add(node.source(),
                           "unknown condition '" + joint.condition +
                               "', expected new, tired, corroded or loose");
        return joint;
    }

    std::string jointKindOf(const toml::node& node) {
        const std::string kind = node.value<std::string>().value_or("");
        if (!m_catalogues.joints.contains(kind)) {
            std::vector<std::string> names;
            names.reserve(m_catalogues.joints.size());
            for (const auto& [known, conditions] : m_catalogues.joints)
                names.push_back(known);
            m_problems.addUnknown(node.source(), "joint", kind, names);
        }
        return kind;
    }

    /// The changes of a `set` table; paths are checked against everything read so far.
    std::vector<Change> takeSet(Fields& fields,
                                std::initializer_list<installation::KeyClass> allowed,
                                const std::string& who) {
        std::vector<Change> changes;
        const toml::node* node = fields.take("set");
        if (node == nullptr || node->as_table() == nullptr) {
            m_problems.add(fields.table().source(), who + " wants 'set', a table of changes");
            return changes;
        }
        for (const auto& [path, value] : *node->as_table())
            if (auto change = changeOf(std::string(path.str()), path.source(), value, allowed, who))
                changes.push_back(std::move(*change));
        return changes;
    }

    std::optional<Change> changeOf(const std::string& path,
                                   const toml::source_region& where,
                                   const toml::node& node,
                                   std::initializer_list<installation::KeyClass> allowed,
                                   const std::string& who) {
        try {
            const installation::Key& key = installation::findTarget(m_installation, path);
            if (std::ranges::find(allowed, key.key_class) == allowed.end())
                m_problems.add(where,
                               who + " cannot change '" + path + "': it is drawn, not a state");
            else if (const auto value = valueOf(node, key, m_problems))
                return Change{path, *value};
        } catch (const SceneError& error) {
            m_problems.add(where, error.problems().front().message);
        }
        return std::nullopt;
    }

    void readCondition(const toml::table& block) {
        using enum installation::KeyClass;
        Fields fields(block, m_problems);
        const auto id = takeId(fields);
        Condition condition{.id = id.value_or(""), .name = fields.takeText("name")};
        condition.set = takeSet(fields, {State, Quality}, "a condition");
        fields.finish("a condition");
        m_installation.conditions.push_back(std::move(condition));
    }

    void readEvent(const toml::table& block) {
        Fields fields(block, m_problems);
        Event event;
        if (!fields.table().contains("at_s"))
            m_problems.add(block.source(), "an event wants 'at_s'");
        event.at_s = fields.takeNumber("at_s", 0, 86400).value_or(0);
        event.set = takeSet(fields, {installation::KeyClass::State}, "an event");
        for (const Change& change : event.set)
            if (!change.path.ends_with(".closed"))
                m_problems.add(block.source(),
                               "an event on '" + change.path +
                                   "' is not simulated yet, expected a contact's 'closed'");
        fields.finish("an event");
        m_installation.events.push_back(std::move(event));
    }

    void settleSubject() {
        std::vector<std::string> units;
        for (const Part& part : m_installation.parts)
            if (std::holds_alternative<Controller>(part.body))
                units.push_back(part.id);
        if (m_installation.subject.empty()) {
            if (units.size() == 1)
                m_installation.subject = units.front();
            else
                m_problems.add(1,
                               1,
                               units.empty()
                                   ? "no controller is drawn, so there is nothing to start"
                                   : "several controllers are drawn, 'subject' must name one");
        } else if (std::ranges::find(units, m_installation.subject) == units.end())
            m_problems.addUnknown(
                m_top.take("subject")->source(), "controller", m_installation.subject, units);
    }

    Fields m_top;
    Problems& m_problems;
    const Catalogues& m_catalogues;
    Installation m_installation;
    Places m_places;
};

/// The format's number comes first: a later file is not read at all.
void requireFormat(const toml::table& table, Problems& problems) {
    const toml::node* number = table.get("ebbline");
    if (number == nullptr || !number->is_integer())
        problems.add(1, 1, "a scene begins with ebbline = 1");
    else if (number->value<int>().value_or(2) > 1)
        problems.add(number->source(), "written for a later ebbline, this one reads format 1");
    else if (number->value<int>() != 1)
        problems.add(number->source(), "unknown format, this ebbline reads format 1");
    if (const toml::node* what = table.get("what"))
        if (what->value<std::string>() != "scene")
            problems.add(what->source(), "not a scene, expected what = \"scene\"");
    problems.throwIfAny();
}

} // namespace

Document readText(std::string_view text, const std::string& name, const Catalogues& catalogues) {
    const toml::table table = parse(name, text);
    Problems problems(name, text);
    requireFormat(table, problems);
    Installation installation = SceneReader(table, problems, catalogues).read();
    problems.throwIfAny();
    return {.text = std::string(text), .installation = std::move(installation)};
}

Document read(const std::filesystem::path& path, const Catalogues& catalogues) {
    Document document = readText(readBytes(path), path.string(), catalogues);
    document.path = path;
    return document;
}

} // namespace ebbline::file
