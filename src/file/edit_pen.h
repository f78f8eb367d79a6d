// SPDX-License-Identifier: MIT
// Writing into a tree's text: keys set and taken out, elements and blocks added and removed.
#pragma once

#include "edit_tree.h"
#include "write.h"

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline::file {

/// Collects what is to be different and says it all at once. The tree stays as it was meanwhile.
/// Of one array elements may either be added or removed.
class Pen {
public:
    explicit Pen(const Tree& tree) : m_tree(tree), m_splices(tree.text()) {}

    /// The value of a key; a new key goes behind the last one of its table.
    void set(const Node& table, std::string_view key, const std::string& token);
    void replace(const Node& value, const std::string& token);
    void replace(Span span, const std::string& with) { m_splices.replace(span, with); }
    /// Takes a key out; nothing happens where there is none.
    void erase(const Node& table, std::string_view key);
    void append(const Node& array, const std::string& token);
    void eraseElement(const Node& array, std::size_t index);

    /// Takes out one block or inline table of a list that lies under a key of the root, with the
    /// comment lines directly above it.
    void eraseBlock(std::string_view list, std::size_t index);
    /// A block more, behind the last one under that key, else behind the last of `after`.
    void place(std::string_view list, const Lines& lines, std::string_view after);
    /// A new [block] of the root, behind its own keys.
    void placeHead(const std::string& header, const Lines& lines);

    /// The text with everything done.
    [[nodiscard]] std::string finish();

private:
    struct Pending {
        std::set<std::size_t> removed;
        std::vector<std::string> added;
    };

    void add(const Node& table, std::string_view key, const std::string& token);
    void eraseWords(const Node& table, const std::set<const Container*>& sections);
    void eraseSection(const Container& section);
    void insertLines(std::size_t at, const std::string& lines);
    [[nodiscard]] std::size_t endOf(const Container& section) const;

    void finishNewSection(const Node& table, const std::string& lines);
    void finishSection(const Container& section, const Pending& pending);
    void finishInline(const Container& table, const Pending& pending);
    void finishArray(const Container& array, const Pending& pending);
    void removeElement(const Container& array, std::size_t i, bool has_one_before);
    void addElements(const Container& array, const std::vector<std::string>& tokens);
    [[nodiscard]] bool hasOwnLines(const Container& array, std::size_t i) const;
    [[nodiscard]] bool startsLine(std::size_t at) const;

    const Tree& m_tree;
    Splices m_splices;
    std::map<const Container*, Pending> m_pending;
    std::map<const Node*, std::string> m_new_sections;
};

} // namespace ebbline::file
