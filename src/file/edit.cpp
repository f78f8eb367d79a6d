// SPDX-License-Identifier: MIT
// Edits of a document: what the installation shall be, then the bytes that say so.
#include "edit_state.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <limits>

namespace ebbline::file {
namespace {

const Cleared nothing_cleared;

constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

/// Which thing of before each wanted one is; none for a new one. Order holds in the text.
template <class Thing>
std::vector<std::size_t> match(const std::vector<Thing>& was, const std::vector<Thing>& wanted) {
    const auto is_same_kind = [](const Thing& one, const Thing& other) {
        if constexpr (std::is_same_v<Thing, Part>)
            return one.body.index() == other.body.index();
        else
            return one.id == other.id;
    };
    std::vector<std::size_t> matches;
    matches.reserve(wanted.size());
    std::size_t next = 0;
    for (const Thing& thing : wanted) {
        std::size_t i = next;
        while (i < was.size() && was[i].id != thing.id)
            ++i;
        const bool is_there = i < was.size() && is_same_kind(was[i], thing);
        matches.push_back(is_there ? i : none);
        next = is_there ? i + 1 : next;
    }
    return matches;
}

/// Brings a text that says one installation to say another.
class Reconciler {
public:
    Reconciler(const Installation& was,
               const Installation& wanted,
               const Catalogues& catalogues,
               const Cleared& cleared)
        : m_was(was), m_wanted(wanted), m_catalogues(catalogues), m_cleared(cleared) {}

    std::string write(const std::string& text) {
        const std::string changed = writeChanges(text);
        return writeNew(changed);
    }

private:
    /// What is there already, and what goes.
    std::string writeChanges(std::string_view text) {
        const Tree tree(text);
        Pen pen(tree);
        const Node& root = tree.root();
        fixText(pen, root, "title", m_was.title, m_wanted.title);
        fixText(pen, root, "note", m_was.note, m_wanted.note);
        fixSurroundings(pen, root);
        fixNames(pen, root, "condition", m_was.conditions, m_wanted.conditions);
        fixNames(pen, root, "variant", m_was.variants, m_wanted.variants);
        fixNames(pen, root, "setup", m_was.setups, m_wanted.setups);
        fixNames(pen, root, "way", m_was.ways, m_wanted.ways);
        fixNames(pen, root, "keep-out", m_was.keep_outs, m_wanted.keep_outs);
        for (std::size_t i = 0; i < m_was.ways.size(); ++i)
            fixPlaces(pen, tree, "way", i, "line_m", m_was.ways[i].line_m, m_wanted.ways[i].line_m);
        for (std::size_t i = 0; i < m_was.keep_outs.size(); ++i)
            fixPlaces(pen,
                      tree,
                      "keep-out",
                      i,
                      "outline_m",
                      m_was.keep_outs[i].outline_m,
                      m_wanted.keep_outs[i].outline_m);
        fixThings(pen, tree, "part", m_was.parts, m_wanted.parts);
        fixThings(pen, tree, "run", m_was.runs, m_wanted.runs);
        return pen.finish();
    }

    /// What was not there, and what only then has to be said.
    std::string writeNew(std::string_view text) {
        const Tree tree(text);
        Pen pen(tree);
        const auto is_unit = [](const Part& part) {
            return std::holds_alternative<Controller>(part.body);
        };
        if (std::ranges::count_if(m_wanted.parts, is_unit) > 1 &&
            tree.root().find("subject") == nullptr)
            pen.set(tree.root(), "subject", quotedText(m_wanted.subject));
        const auto parts = match(m_was.parts, m_wanted.parts);
        for (std::size_t i = 0; i < parts.size(); ++i)
            if (parts[i] == none)
                pen.place("part", linesOf(m_wanted.parts[i], m_catalogues), "part");
        const auto runs = match(m_was.runs, m_wanted.runs);
        for (std::size_t i = 0; i < runs.size(); ++i)
            if (runs[i] == none)
                pen.place("run", linesOf(m_wanted.runs[i]), "part");
        return pen.finish();
    }

    void fixSurroundings(Pen& pen, const Node& root) {
        const Field* block = root.find("surroundings");
        if (m_cleared.owner == "surroundings" && block != nullptr)
            pen.erase(*block->node, "ambient_c");
        if (m_was.surroundings == m_wanted.surroundings || !m_cleared.owner.empty())
            return;
        const std::string ambient = token(m_wanted.surroundings.ambient_c);
        if (block == nullptr)
            pen.placeHead("[surroundings]", {{"ambient_c", ambient}});
        else
            pen.set(*block->node, "ambient_c", ambient);
    }

    template <class Thing>
    static void fixNames(Pen& pen,
                         const Node& root,
                         std::string_view list,
                         const std::vector<Thing>& was,
                         const std::vector<Thing>& wanted) {
        for (std::size_t i = 0; i < was.size(); ++i)
            if (was[i].name != wanted[i].name)
                fixText(
                    pen, *root.find(list)->node->elements[i], "name", was[i].name, wanted[i].name);
    }

    static void fixPlaces(Pen& pen,
                          const Tree& tree,
                          std::string_view list,
                          std::size_t i,
                          std::string_view key,
                          const std::vector<Position>& was,
                          const std::vector<Position>& wanted) {
        if (was != wanted)
            fixList(pen,
                    tree,
                    *tree.root().find(list)->node->elements[i],
                    key,
                    tokensOf(was),
                    tokensOf(wanted));
    }

    void fixThing(Pen& pen, const Tree& tree, const Node& node, const Part& was, const Part& part) {
        fix(pen, tree, node, PartFix{was, part, m_catalogues, m_cleared});
    }
    void fixThing(Pen& pen, const Tree& tree, const Node& node, const Run& was, const Run& run) {
        fix(pen, tree, node, RunFix{was, run, m_cleared});
    }

    template <class Thing>
    void fixThings(Pen& pen,
                   const Tree& tree,
                   std::string_view list,
                   const std::vector<Thing>& was,
                   const std::vector<Thing>& wanted) {
        const auto matches = match(was, wanted);
        std::vector<bool> is_kept(was.size(), false);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            if (matches[i] == none)
                continue;
            const Thing& before = was[matches[i]];
            is_kept[matches[i]] = true;
            if (before != wanted[i] || !m_cleared.owner.empty())
                fixThing(pen,
                         tree,
                         *tree.root().find(list)->node->elements[matches[i]],
                         before,
                         wanted[i]);
        }
        for (std::size_t i = 0; i < was.size(); ++i)
            if (!is_kept[i])
                pen.eraseBlock(list, i);
    }

    const Installation& m_was;
    const Installation& m_wanted;
    const Catalogues& m_catalogues;
    const Cleared& m_cleared;
};

/// A scene while edits are made: what it is, and the text that says so.
class Editor {
public:
    explicit Editor(const Document& document)
        : m_text(document.text), m_scene(document.installation), m_catalogues(document.catalogues) {
    }

    void make(std::span<const Edit> edits) {
        while (!edits.empty()) {
            std::vector<Change> changes;
            for (const Edit& edit : edits)
                if (const auto* change = std::get_if<Change>(&edit))
                    changes.push_back(*change);
                else
                    break;
            if (!changes.empty())
                become(installation::apply(m_scene, changes));
            else
                std::visit([this](const auto& edit) { make(edit); }, edits.front());
            edits = edits.subspan(std::max<std::size_t>(changes.size(), 1));
        }
    }

    [[nodiscard]] const std::string& text() const { return m_text; }
    [[nodiscard]] const Installation& scene() const { return m_scene; }

private:
    void become(Installation wanted, const Cleared& cleared = nothing_cleared) {
        m_text = Reconciler(m_scene, wanted, m_catalogues, cleared).write(m_text);
        m_scene = std::move(wanted);
    }

    void make(const Change&) {} // taken together before
    void make(const Clear& edit) {
        const installation::Key& key = installation::findTarget(m_scene, edit.path);
        if (key.kind == "run" && (key.name == "area_mm2" || key.name == "awg" || key.name == "sae"))
            refuse(words("{} cannot be taken out, a run wants a size", text::inQuotes(edit.path)));
        const std::size_t dot = edit.path.rfind('.');
        const Cleared what{edit.path.substr(0, dot), edit.path.substr(dot + 1)};
        become(cleared(m_scene, what, m_catalogues), what);
    }
    void make(const Rename& edit) {
        m_scene = renamed(std::move(m_scene), edit);
        m_text = renamedText(m_text, edit);
    }
    void make(const Retext& edit) { become(retexted(m_scene, edit)); }
    void make(const Move& edit) { become(moved(m_scene, edit)); }
    void make(const Reroute& edit) { become(rerouted(m_scene, edit)); }
    void make(const Amend& edit) { become(amended(m_scene, edit)); }

    std::string m_text;
    Installation m_scene;
    const Catalogues& m_catalogues;
};

} // namespace

Document readAgain(const Document& document, std::string_view text, const Catalogues& catalogues) {
    const bool has_file = !document.path.empty();
    const std::filesystem::path above = document.path.parent_path();
    const std::filesystem::path folder = !has_file ? "" : above.empty() ? "." : above;
    Document again =
        readText(text, has_file ? document.path.string() : "scene", catalogues, folder);
    again.path = document.path;
    return again;
}

Document edit(const Document& document, std::span<const Edit> edits, const Catalogues& catalogues) {
    Editor editor(document);
    editor.make(edits);
    if (editor.text() == document.text)
        return document;
    Document edited = readAgain(document, editor.text(), catalogues);
    if (edited.installation != editor.scene())
        refuse(words("no text of a scene says just what this edit means"));
    return edited;
}

Document edit(const Document& document, const Edit& edit, const Catalogues& catalogues) {
    return file::edit(document, std::span(&edit, 1), catalogues);
}

} // namespace ebbline::file
