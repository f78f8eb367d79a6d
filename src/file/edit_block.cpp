// SPDX-License-Identifier: MIT
// Blocks: where they begin and end, taking them out, putting more behind them.
#include "edit_pen.h"

#include <algorithm>

namespace ebbline::file {
namespace {

bool isComment(std::string_view text, std::size_t line_begin) {
    return line_begin < text.size() && contentOf(text, line_begin).starts_with('#');
}

bool isEmpty(std::string_view text, std::size_t line_begin) {
    return line_begin < text.size() && contentOf(text, line_begin).empty();
}

} // namespace

/// Start of the line behind a section. Comment lines that follow at once belong to it, unless they
/// stand directly above something else.
std::size_t Pen::endOf(const Container& section) const {
    const std::string_view text = m_tree.text();
    const Span last = section.items.empty() ? section.frame : section.items.back();
    const std::size_t end = nextLine(text, last.end);
    std::size_t behind = end;
    while (isComment(text, behind))
        behind = nextLine(text, behind);
    return behind == text.size() || isEmpty(text, behind) ? behind : end;
}

void Pen::eraseSection(const Container& section) {
    const std::string_view text = m_tree.text();
    std::size_t begin = lineBegin(text, section.frame.begin);
    while (begin > 0 && isComment(text, lineBegin(text, begin - 1)))
        begin = lineBegin(text, begin - 1);
    std::size_t end = endOf(section);
    while (isEmpty(text, end))
        end = nextLine(text, end);
    if (end == text.size()) // no empty lines at the end of the text
        while (begin > 0 && isEmpty(text, lineBegin(text, begin - 1)))
            begin = lineBegin(text, begin - 1);
    m_splices.remove({begin, end});
}

void Pen::eraseBlock(std::string_view list, std::size_t index) {
    const Field* field = m_tree.root().find(list);
    if (field->node->form == Node::Form::Blocks) {
        for (const Container* section : sectionsOf(*field->node->elements[index]))
            eraseSection(*section);
        return;
    }
    eraseElement(*field->node, index);
    if (m_pending[field->node->home].removed.size() == field->node->elements.size()) {
        m_pending.erase(field->node->home); // an empty array would be no array of tables
        erase(m_tree.root(), list);
    }
}

void Pen::place(std::string_view list, const Lines& lines, std::string_view after) {
    const Field* field = m_tree.root().find(list);
    if (field != nullptr && field->node->form == Node::Form::Array) {
        append(*field->node, inlineOf(lines));
        return;
    }
    if (field == nullptr)
        field = m_tree.root().find(after);
    std::size_t at = m_tree.text().size();
    if (field != nullptr && field->node->form == Node::Form::Blocks) {
        at = 0;
        for (const Container* section : sectionsOf(*field->node->elements.back()))
            at = std::max(at, endOf(*section));
    }
    insertLines(at, "\n" + blockOf("[[" + std::string(list) + "]]", lines));
}

void Pen::placeHead(const std::string& header, const Lines& lines) {
    insertLines(endOf(*m_tree.root().home), "\n" + blockOf(header, lines));
}

} // namespace ebbline::file
