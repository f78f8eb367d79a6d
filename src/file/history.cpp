// SPDX-License-Identifier: MIT
// Undo and redo as texts.
#include "edit_state.h"

#include "ebbline/edit.h"

#include <utility>

namespace ebbline {

History::History(Document document, Catalogues catalogues)
    : m_document(std::move(document)), m_catalogues(std::move(catalogues)) {}

void History::edit(std::span<const Edit> edits, std::string_view tag) {
    Document edited = file::edit(m_document, edits, m_catalogues);
    if (edited.text == m_document.text)
        return;
    if (tag.empty() || tag != m_tag || m_undone_to.empty())
        m_undone_to.push_back(std::move(m_document.text));
    m_redone_to.clear();
    m_document = std::move(edited);
    m_tag = tag;
}

void History::edit(const Edit& edit, std::string_view tag) {
    this->edit(std::span(&edit, 1), tag);
}

void History::undo() {
    show(m_undone_to, m_redone_to);
}

void History::redo() {
    show(m_redone_to, m_undone_to);
}

void History::show(std::vector<std::string>& from, std::vector<std::string>& to) {
    if (from.empty())
        return;
    Document other = file::readAgain(m_document, from.back(), m_catalogues);
    to.push_back(std::move(m_document.text));
    from.pop_back();
    m_document = std::move(other);
    m_tag.clear();
}

} // namespace ebbline
