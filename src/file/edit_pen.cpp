// SPDX-License-Identifier: MIT
// Setting keys and taking them out; what that means for lines and for inline tables.
#include "edit_pen.h"

#include <algorithm>

namespace ebbline::file {
namespace {

/// Spaces and tabs before a byte in its line.
std::string_view indentOf(std::string_view text, std::size_t at) {
    const std::string_view before = text.substr(0, at);
    const std::size_t last = before.find_last_not_of(" \t");
    return before.substr(last == std::string_view::npos ? 0 : last + 1);
}

} // namespace

void Pen::replace(const Node& value, const std::string& token) {
    m_splices.replace(value.span, token);
}

void Pen::set(const Node& table, std::string_view key, const std::string& token) {
    const Field* field = table.find(key);
    if (field == nullptr)
        add(table, key, token);
    else if (field->container != nullptr)
        replace(*field->node, token);
    else { // what was a block or a table by dots becomes one value
        erase(table, key);
        add(table, key, token);
    }
}

void Pen::add(const Node& table, std::string_view key, const std::string& token) {
    const std::string line = table.prefix + std::string(key) + " = " + token;
    if (table.home != nullptr)
        m_pending[table.home].added.push_back(line);
    else
        m_new_sections[&table] += line + "\n";
}

/// The first own keys of a table of which only sub-tables have a header.
void Pen::finishNewSection(const Node& table, const std::string& lines) {
    const auto sections = sectionsOf(table);
    const auto first = std::ranges::min_element(
        sections, {}, [](const Container* section) { return section->frame.begin; });
    if (first != sections.end())
        m_splices.insert(lineBegin(m_tree.text(), (*first)->frame.begin),
                         "[" + table.path + "]\n" + lines + "\n");
}

void Pen::erase(const Node& table, std::string_view key) {
    const Field* field = table.find(key);
    if (field == nullptr)
        return;
    if (field->container != nullptr) {
        m_pending[field->container].removed.insert(field->item);
        return;
    }
    const auto sections = sectionsOf(*field->node);
    for (const Container* section : sections)
        eraseSection(*section);
    eraseWords(*field->node, {sections.begin(), sections.end()});
}

/// What a table by dots says, save in sections that go as a whole.
void Pen::eraseWords(const Node& table, const std::set<const Container*>& sections) {
    for (const Field& field : table.fields)
        if (field.container == nullptr)
            eraseWords(*field.node, sections);
        else if (!sections.contains(field.container))
            m_pending[field.container].removed.insert(field.item);
}

void Pen::append(const Node& array, const std::string& token) {
    m_pending[array.home].added.push_back(token);
}

void Pen::eraseElement(const Node& array, std::size_t index) {
    m_pending[array.home].removed.insert(index);
}

std::string Pen::finish() {
    for (const auto& [container, pending] : m_pending)
        if (container->form == Container::Form::Section)
            finishSection(*container, pending);
        else if (container->form == Container::Form::Inline)
            finishInline(*container, pending);
        else
            finishArray(*container, pending);
    for (const auto& [table, lines] : m_new_sections) // behind keys added at the same place
        finishNewSection(*table, lines);
    return m_splices.apply();
}

/// Puts whole lines before a line, or at the end of a text that may lack its last line feed.
void Pen::insertLines(std::size_t at, const std::string& lines) {
    if (at == m_tree.text().size() && endsOpen(m_tree.text()))
        m_splices.insert(at, "\n" + lines.substr(0, lines.size() - 1));
    else
        m_splices.insert(at, lines);
}

void Pen::finishSection(const Container& section, const Pending& pending) {
    const std::string_view text = m_tree.text();
    const Span last = section.items.empty() ? section.frame : section.items.back();
    const std::size_t at = nextLine(text, last.end);
    for (const std::size_t i : pending.removed)
        m_splices.remove(
            {lineBegin(text, section.items[i].begin), nextLine(text, section.items[i].end)});
    if (pending.added.empty())
        return;
    std::string lines;
    for (const std::string& line : pending.added)
        lines += std::string(indentOf(text, last.begin)) + line + "\n";
    const bool is_last_removed =
        !section.items.empty() && pending.removed.contains(section.items.size() - 1);
    if (is_last_removed && at == text.size() && endsOpen(text))
        m_splices.insert(at, lines.substr(0, lines.size() - 1)); // the line feed before stays
    else
        insertLines(at, lines);
}

void Pen::finishInline(const Container& table, const Pending& pending) {
    bool has_one_before = false;
    for (std::size_t i = 0; i < table.items.size(); ++i) {
        if (!pending.removed.contains(i))
            has_one_before = true;
        else if (has_one_before)
            m_splices.remove({table.items[i - 1].end, table.items[i].end});
        else if (i + 1 < table.items.size())
            m_splices.remove({table.items[i].begin, table.items[i + 1].begin});
        else
            m_splices.remove(table.items[i]);
    }
    std::string more;
    for (const std::string& line : pending.added) {
        more += has_one_before ? ", " : "";
        more += line;
        has_one_before = true;
    }
    if (more.empty())
        return;
    if (table.items.empty())
        m_splices.replace({table.frame.begin + 1, table.frame.end - 1}, " " + more + " ");
    else
        m_splices.insert(table.items.back().end, more);
}

} // namespace ebbline::file
