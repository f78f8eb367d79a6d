// SPDX-License-Identifier: MIT
// A whole installation as the text of a scene.
#include "write.h"

#include "ebbline/file.h"

#include <algorithm>

namespace ebbline::file {
namespace {

constexpr std::size_t widest_table = 80; ///< a set of changes on one line

class SceneWriter {
public:
    SceneWriter(const Installation& scene, const Catalogues& catalogues)
        : m_scene(scene), m_catalogues(catalogues) {}

    std::string write() {
        writeHead();
        for (const Part& part : m_scene.parts)
            add("[[part]]", linesOf(part, m_catalogues));
        for (const Run& run : m_scene.runs)
            add("[[run]]", linesOf(run));
        for (const Way& way : m_scene.ways)
            writeWay(way);
        for (const KeepOut& keep_out : m_scene.keep_outs)
            add("[[keep-out]]",
                named(keep_out, {{"outline_m", listed(tokensOf(keep_out.outline_m))}}));
        for (const ChangeSet& condition : m_scene.conditions)
            writeChanges("condition", condition);
        for (const ChangeSet& variant : m_scene.variants)
            writeChanges("variant", variant);
        for (const ChangeSet& setup : m_scene.setups)
            writeChanges("setup", setup);
        for (const Fault& fault : m_scene.faults)
            writeFault(fault);
        for (const Event& event : m_scene.events)
            add("[[event]]", {{"at_s", token(event.at_s)}, {"set", tableOf(event.set)}});
        for (const Spread& spread : m_scene.spreads)
            writeSpread(spread);
        return std::move(m_text);
    }

private:
    void add(const std::string& header, const Lines& lines) {
        m_text += "\n" + blockOf(header, lines);
    }

    static void addText(Lines& lines, const char* key, const std::string& text) {
        if (!text.empty())
            lines.emplace_back(key, quotedText(text));
    }

    /// Id and name of a thing, then what else there is to say.
    template <class Thing>
    static Lines named(const Thing& thing, const Lines& more) {
        Lines lines{{"id", quotedText(thing.id)}};
        addText(lines, "name", thing.name);
        lines.insert(lines.end(), more.begin(), more.end());
        return lines;
    }

    /// `subject` is left out where there is nothing to choose.
    [[nodiscard]] bool isOnlyUnit() const {
        return std::ranges::count_if(m_scene.parts, [](const Part& part) {
                   return std::holds_alternative<Controller>(part.body);
               }) == 1;
    }

    void writeHead() {
        Lines lines{{"what", "\"scene\""}};
        addText(lines, "title", m_scene.title);
        addText(lines, "note", m_scene.note);
        if (m_scene.nominal_v != Installation{}.nominal_v)
            lines.emplace_back("nominal_v", token(m_scene.nominal_v));
        addText(lines, "rules", m_scene.rules);
        if (!isOnlyUnit())
            addText(lines, "subject", m_scene.subject);
        std::vector<std::string> names;
        names.reserve(m_scene.use.size());
        for (const std::string& name : m_scene.use)
            names.push_back(quotedText(name));
        if (!names.empty())
            lines.emplace_back("use", listed(names));
        m_text = blockOf("ebbline = 1", lines);
        if (m_scene.plan != Plan{})
            writePlan(m_scene.plan);
        if (m_scene.surroundings != Surroundings{})
            add("[surroundings]", {{"ambient_c", token(m_scene.surroundings.ambient_c)}});
    }

    void writePlan(const Plan& plan) {
        Lines lines;
        if (!plan.outline_m.empty())
            lines.emplace_back("outline_m", listed(tokensOf(plan.outline_m)));
        if (plan.picture)
            lines.emplace_back("picture",
                               inlineOf({{"file", quotedText(plan.picture->file)},
                                         {"at_m", token(plan.picture->at_m)},
                                         {"width_m", token(plan.picture->width_m)}}));
        add("[plan]", lines);
    }

    void writeWay(const Way& way) {
        Lines lines{{"line_m", listed(tokensOf(way.line_m))}};
        if (way.ambient_c)
            lines.emplace_back("ambient_c", token(*way.ambient_c));
        add("[[way]]", named(way, lines));
    }

    static Lines linesOfSet(const std::vector<Set>& set) {
        Lines lines;
        for (const Set& change : set)
            lines.emplace_back(quotedText(change.path), token(change.value));
        return lines;
    }
    static std::string tableOf(const std::vector<Set>& set) {
        return set.empty() ? "{}" : inlineOf(linesOfSet(set));
    }

    /// The changes of one kind, in their order.
    template <class Kind>
    static std::vector<Kind> changesOf(const ChangeSet& set) {
        std::vector<Kind> found;
        for (const Change& change : set.changes)
            if (const auto* one = std::get_if<Kind>(&change))
                found.push_back(*one);
        return found;
    }

    static void addList(Lines& lines, const char* key, const std::vector<std::string>& tokens) {
        if (!tokens.empty())
            lines.emplace_back(key, listed(tokens));
    }

    void writeChanges(const std::string& list, const ChangeSet& set) {
        std::vector<std::string> opened;
        std::vector<std::string> bridged;
        std::vector<std::string> removed;
        for (const Open& open : changesOf<Open>(set))
            opened.push_back(quotedText(open.joint));
        for (const Bridge& bridge : changesOf<Bridge>(set))
            bridged.push_back("[" + token(bridge.from) + ", " + token(bridge.to) + "]");
        for (const Remove& remove : changesOf<Remove>(set))
            removed.push_back(quotedText(remove.id));
        Lines lines = named(set, {});
        addList(lines, "open", opened);
        addList(lines, "bridge", bridged);
        addList(lines, "remove", removed);
        const auto values = changesOf<Set>(set);
        const std::string table = tableOf(values);
        const bool is_wide = table.size() > widest_table;
        if (!is_wide && (list == "condition" || !values.empty()))
            lines.emplace_back("set", table);
        add("[[" + list + "]]", lines);
        if (is_wide)
            add("[" + list + ".set]", linesOfSet(values));
        writePlaced(list, set);
    }

    void writePlaced(const std::string& list, const ChangeSet& set) {
        for (const Place& place : changesOf<Place>(set))
            if (const auto* part = std::get_if<Part>(&place.what))
                add("[[" + list + ".part]]", linesOf(*part, m_catalogues));
        for (const Place& place : changesOf<Place>(set))
            if (const auto* run = std::get_if<Run>(&place.what))
                add("[[" + list + ".run]]", linesOf(*run));
    }

    /// What the catalogue says of the kind comes first in a fault, and is not said again.
    void writeFault(const Fault& fault) {
        Lines lines{{"on", quotedText(fault.on)}, {"kind", quotedText(fault.kind)}};
        const auto entry = m_catalogues.faults.find(fault.kind);
        const std::size_t known = entry == m_catalogues.faults.end() ? 0 : entry->second.set.size();
        for (std::size_t i = known; i < fault.set.size(); ++i)
            lines.emplace_back(fault.set[i].path.substr(fault.on.size() + 1),
                               token(fault.set[i].value));
        add("[[fault]]", lines);
    }

    void writeSpread(const Spread& spread) {
        const bool is_normal = spread.law == "normal";
        const bool is_range = spread.law == "uniform";
        add("[[spread]]",
            {{"on", quotedText(spread.on)},
             {"law", quotedText(spread.law)},
             {is_normal  ? "mean"
              : is_range ? "low"
                         : "median",
              token(spread.first)},
             {is_normal  ? "deviation"
              : is_range ? "high"
                         : "sigma",
              token(spread.second)}});
    }

    const Installation& m_scene;
    const Catalogues& m_catalogues;
    std::string m_text;
};

} // namespace

std::string write(const Installation& installation, const Catalogues& catalogues) {
    return SceneWriter(installation, catalogues).write();
}

} // namespace ebbline::file
