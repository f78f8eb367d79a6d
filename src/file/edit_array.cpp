// SPDX-License-Identifier: MIT
// Elements of arrays: more and fewer, on one line or over several.
#include "edit_pen.h"

#include <algorithm>

namespace ebbline::file {
namespace {

bool isBlank(std::string_view text) {
    return text.find_first_not_of(" \t") == std::string_view::npos;
}

} // namespace

bool Pen::startsLine(std::size_t at) const {
    const std::size_t begin = lineBegin(m_tree.text(), at);
    return isBlank(m_tree.text().substr(begin, at - begin));
}

/// Whether nothing else stands on the lines of an element but its comma and a comment.
bool Pen::hasOwnLines(const Container& array, std::size_t i) const {
    if (!startsLine(array.items[i].begin))
        return false;
    std::size_t end = array.items[i].end;
    if (i < array.commas.size()) {
        if (nextLine(m_tree.text(), end) <= array.commas[i])
            return false; // the comma stands on a later line
        end = array.commas[i] + 1;
    }
    const std::string_view rest = m_tree.text().substr(end, nextLine(m_tree.text(), end) - end);
    const std::size_t first = rest.find_first_not_of(" \t\r");
    return first == std::string_view::npos || rest[first] == '#' || rest[first] == '\n';
}

void Pen::removeElement(const Container& array, std::size_t i, bool has_one_before) {
    const std::string_view text = m_tree.text();
    const Span item = array.items[i];
    const bool has_comma = i < array.commas.size();
    if (hasOwnLines(array, i)) {
        std::size_t begin = lineBegin(text, item.begin);
        while (begin > array.frame.begin &&
               contentOf(text, lineBegin(text, begin - 1)).starts_with('#'))
            begin = lineBegin(text, begin - 1);
        m_splices.remove({begin, nextLine(text, item.end)});
        return;
    }
    const auto between = [&](std::size_t from, std::size_t to) {
        return text.substr(from, to - from);
    };
    if (has_one_before && isBlank(between(array.commas[i - 1] + 1, item.begin))) {
        m_splices.remove({array.commas[i - 1], item.end});
        return;
    }
    m_splices.remove(item);
    if (!has_comma)
        return;
    const bool is_next_near = i + 1 < array.items.size() &&
                              isBlank(between(array.commas[i] + 1, array.items[i + 1].begin));
    m_splices.remove(
        {array.commas[i], is_next_near ? array.items[i + 1].begin : array.commas[i] + 1});
}

void Pen::addElements(const Container& array, const std::vector<std::string>& tokens) {
    const std::string_view text = m_tree.text();
    std::string joined;
    for (const std::string& token : tokens)
        joined += (joined.empty() ? "" : ", ") + token;
    if (array.items.empty()) {
        m_splices.insert(array.frame.begin + 1, joined);
        return;
    }
    const Span last = array.items.back();
    const bool has_comma = array.commas.size() == array.items.size();
    if (!startsLine(last.begin)) {
        m_splices.insert(has_comma ? array.commas.back() : last.end, ", " + joined);
        return;
    }
    const std::size_t begin = lineBegin(text, last.begin);
    const std::string indent(text.substr(begin, last.begin - begin));
    std::string lines;
    for (const std::string& token : tokens)
        lines.append("\n").append(indent).append(token).append(",");
    if (!has_comma) {
        m_splices.insert(last.end, ",");
        lines.pop_back();
    }
    std::size_t at = has_comma ? array.commas.back() + 1 : last.end;
    if (hasOwnLines(array, array.items.size() - 1)) { // behind its comment
        at = text.find('\n', at);
        if (text[at - 1] == '\r')
            --at;
    }
    m_splices.insert(at, lines);
}

void Pen::finishArray(const Container& array, const Pending& pending) {
    bool has_one_before = false;
    for (std::size_t i = 0; i < array.items.size(); ++i)
        if (pending.removed.contains(i))
            removeElement(array, i, has_one_before);
        else
            has_one_before = true;
    if (!pending.added.empty())
        addElements(array, pending.added);
}

} // namespace ebbline::file
