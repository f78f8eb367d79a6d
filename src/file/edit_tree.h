// SPDX-License-Identifier: MIT
// A TOML text as a tree that knows the bytes of every key and value.
#pragma once

#include "splice.h"

#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline::file {

/// Where keys or elements stand one behind the other in the text.
struct Container {
    enum class Form {
        Section, ///< the lines below a [header], or at the head of the text
        Inline,  ///< between braces
        Array    ///< between brackets
    };
    Form form = Form::Section;
    Span frame;                      ///< the header, or the brackets with what is between them
    std::vector<Span> items;         ///< statements `key = value`, or elements, in their order
    std::vector<std::size_t> commas; ///< of an array: behind each element, if there is one
};

struct Node;

/// A key within a table, and its value.
struct Field {
    std::string name;
    Span key;                       ///< the last word of the key as it is written
    Container* container = nullptr; ///< where `key = value` stands; null for a header's word
    std::size_t item = 0;           ///< which statement of the container
    Node* node = nullptr;
};

/// A value. A table may be put together from several places of the text.
struct Node {
    enum class Form {
        Leaf,   ///< a text, number, flag or date
        Array,  ///< [ ... ]
        Inline, ///< { ... }
        Table,  ///< by [header], or by keys with dots
        Blocks  ///< [[header]] once for each element
    };
    Form form = Form::Leaf;
    Span span;                   ///< of a leaf, an array, an inline table
    std::vector<Field> fields;   ///< of a table
    std::vector<Node*> elements; ///< of an array or of blocks
    Container* home = nullptr;   ///< where more can be said; null: only sub-tables have a header
    std::string prefix;          ///< of a table by dots: what its keys begin with there
    std::string path;            ///< of a table: how a header would name it

    [[nodiscard]] const Field* find(std::string_view name) const;
    [[nodiscard]] bool isTable() const { return form == Form::Inline || form == Form::Table; }
    [[nodiscard]] bool isList() const { return form == Form::Array || form == Form::Blocks; }
};

/// The tree of one text, which must be TOML and must outlive it. toml++ places nodes by line and
/// character, and not all of them; bytes are needed here, of commas and headers too.
class Tree {
public:
    explicit Tree(std::string_view text);

    [[nodiscard]] const Node& root() const { return m_nodes.front(); }
    [[nodiscard]] std::string_view text() const { return m_text; }
    [[nodiscard]] std::string_view source(Span span) const {
        return m_text.substr(span.begin, span.end - span.begin);
    }

private:
    friend class TreeReader;
    std::string_view m_text;
    std::deque<Node> m_nodes;
    std::deque<Container> m_containers;
};

/// The elements of an array or of blocks; the node itself where it is neither.
[[nodiscard]] std::vector<const Node*> elementsOf(const Node& node);

/// What a text or a quoted key says.
[[nodiscard]] std::string decoded(std::string_view token);

/// The sections of a table and of everything within it.
[[nodiscard]] std::vector<const Container*> sectionsOf(const Node& table);

} // namespace ebbline::file
