// SPDX-License-Identifier: MIT
// Another id: in what was drawn, and wherever the text names it.
#include "edit_state.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <set>

namespace ebbline::file {
namespace {

/// "house" and "house.plus" name the id "house", "household" does not.
bool isNamed(std::string_view path, std::string_view id) {
    return path.starts_with(id) && (path.size() == id.size() || path[id.size()] == '.');
}

class ModelRenamer {
public:
    explicit ModelRenamer(const Rename& edit) : m_edit(edit) {}

    void rename(Installation& scene) {
        whole(scene.subject);
        for (Part& part : scene.parts)
            rename(part);
        for (Run& run : scene.runs)
            rename(run);
        for (auto* sets : {&scene.conditions, &scene.variants, &scene.setups})
            for (ChangeSet& set : *sets)
                rename(set);
        for (Fault& fault : scene.faults) {
            path(fault.on);
            rename(fault.set);
        }
        for (Event& event : scene.events)
            rename(event.set);
        for (Spread& spread : scene.spreads)
            path(spread.on);
        for (Way& way : scene.ways)
            whole(way.id);
        for (KeepOut& keep_out : scene.keep_outs)
            whole(keep_out.id);
    }

private:
    void whole(std::string& id) const {
        if (id == m_edit.from)
            id = m_edit.to;
    }
    void path(std::string& path) const {
        if (isNamed(path, m_edit.from))
            path.replace(0, m_edit.from.size(), m_edit.to);
    }
    void rename(std::vector<Set>& set) const {
        for (Set& change : set)
            path(change.path);
    }
    void rename(Part& part) const {
        whole(part.id);
        if (auto* stud = std::get_if<Stud>(&part.body))
            for (Terminal& lug : stud->stack)
                whole(lug.part);
        if (auto* bond = std::get_if<Bond>(&part.body))
            whole(bond->to);
        if (auto* meter = std::get_if<Meter>(&part.body)) {
            whole(meter->plus.part);
            whole(meter->minus.part);
        }
    }
    void rename(Run& run) const {
        whole(run.id);
        for (Core& core : run.cores) {
            whole(core.from.part);
            whole(core.to.part);
        }
    }
    void rename(ChangeSet& set) const {
        whole(set.id);
        for (Change& change : set.changes)
            std::visit([&](auto& one) { renameIn(one); }, change);
    }
    void renameIn(Set& change) const { path(change.path); }
    void renameIn(Open& change) const { path(change.joint); }
    void renameIn(Bridge& change) const {
        whole(change.from.part);
        whole(change.to.part);
    }
    void renameIn(Place& change) const {
        std::visit([&](auto& thing) { rename(thing); }, change.what);
    }
    void renameIn(Remove& change) const { whole(change.id); }

    const Rename& m_edit;
};

/// Every id there is, also of what variants and set-ups place.
std::set<std::string> idsOf(const Installation& scene) {
    std::set<std::string> ids;
    const auto add = [&](const auto& things) {
        for (const auto& thing : things)
            ids.insert(thing.id);
    };
    add(scene.parts);
    add(scene.runs);
    add(scene.ways);
    add(scene.keep_outs);
    for (const auto* sets : {&scene.conditions, &scene.variants, &scene.setups}) {
        add(*sets);
        for (const ChangeSet& set : *sets)
            for (const Change& change : set.changes)
                if (const auto* place = std::get_if<Place>(&change))
                    std::visit([&](const auto& thing) { ids.insert(thing.id); }, place->what);
    }
    return ids;
}

class TextRenamer {
public:
    TextRenamer(const Tree& tree, Splices& splices, const Rename& edit)
        : m_tree(tree), m_splices(splices), m_edit(edit) {}

    void rename() {
        const Node& root = m_tree.root();
        at(root, "subject");
        renameThings(root);
        for (const char* list : {"way", "keep-out"})
            each(root, list, [&](const Node& block) { at(block, "id"); });
        for (const char* list : {"condition", "variant", "setup"})
            each(root, list, [&](const Node& block) { renameChangeSet(block); });
        for (const char* list : {"fault", "spread"})
            each(root, list, [&](const Node& block) { at(block, "on"); });
        each(root, "event", [&](const Node& block) { renameKeys(block); });
    }

private:
    template <class Visit>
    static void each(const Node& table, std::string_view key, const Visit& visit) {
        if (const Field* field = table.find(key))
            for (const Node* element : elementsOf(*field->node))
                visit(*element);
    }

    void renameThings(const Node& table) {
        each(table, "part", [&](const Node& part) {
            for (const char* key : {"id", "to", "plus", "minus", "stack"})
                at(part, key);
        });
        each(table, "run", [&](const Node& run) {
            for (const char* key : {"id", "from", "to"})
                at(run, key);
        });
    }

    void renameChangeSet(const Node& set) {
        at(set, "id");
        renameKeys(set);
        for (const char* key : {"open", "bridge", "remove"})
            at(set, key);
        renameThings(set);
    }

    void renameKeys(const Node& block) {
        if (const Field* set = block.find("set"))
            for (const Field& change : set->node->fields)
                rename(change.key);
    }

    /// The text under a key, or every text of an array there.
    void at(const Node& table, std::string_view key) {
        if (const Field* field = table.find(key))
            renameIn(*field->node);
    }
    void renameIn(const Node& node) {
        if (node.isList())
            for (const Node* element : node.elements)
                renameIn(*element);
        else if (node.form == Node::Form::Leaf)
            rename(node.span);
    }

    /// Within its quotes, where it stands there letter by letter.
    void rename(Span span) {
        const std::string_view token = m_tree.source(span);
        const std::string name = decoded(token);
        if (!isNamed(name, m_edit.from))
            return;
        if (token.substr(1).starts_with(m_edit.from))
            m_splices.replace({span.begin + 1, span.begin + 1 + m_edit.from.size()}, m_edit.to);
        else
            m_splices.replace(span, quotedText(m_edit.to + name.substr(m_edit.from.size())));
    }

    const Tree& m_tree;
    Splices& m_splices;
    const Rename& m_edit;
};

} // namespace

Installation renamed(Installation scene, const Rename& edit) {
    const auto ids = idsOf(scene);
    if (!ids.contains(edit.from))
        refuse(words("nothing is called {}", text::inQuotes(edit.from)));
    if (edit.from != edit.to && ids.contains(edit.to))
        refuse(words("the id {} is taken", text::inQuotes(edit.to)));
    // It goes between the quotes that are there; the reader knows the rest of what an id must be.
    if (edit.to.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") != std::string::npos)
        refuse(words("{} is no id, expected a small letter, then up to 39 of a-z 0-9 -",
                     text::inQuotes(edit.to)));
    ModelRenamer(edit).rename(scene);
    return scene;
}

std::string renamedText(std::string_view text, const Rename& edit) {
    const Tree tree(text);
    Splices splices(text);
    TextRenamer(tree, splices, edit).rename();
    return splices.apply();
}

} // namespace ebbline::file
