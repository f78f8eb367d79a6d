// SPDX-License-Identifier: MIT
// Reading a TOML text into a tree that knows the bytes of every key and value.
#include "edit_tree.h"

#include <algorithm>

namespace ebbline::file {
namespace {

/// One word of a key with dots.
struct Word {
    std::string name;
    Span span;
};

bool isBare(std::string_view name) {
    return !name.empty() &&
           name.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789_-") == std::string_view::npos;
}

} // namespace

/// Reads a text that is known to be TOML; what is not is skipped, never an endless loop.
class TreeReader {
public:
    explicit TreeReader(Tree& tree) : m_tree(tree), m_text(tree.m_text) {}

    void read() {
        if (m_text.starts_with("\xEF\xBB\xBF"))
            m_at = 3;
        Node* table = makeNode(Node::Form::Table);
        table->home = makeContainer(Container::Form::Section, {m_at, m_at});
        for (skipSpace(); m_at < m_text.size(); skipSpace())
            if (m_text[m_at] == '[')
                table = readHeader();
            else
                readStatement(*table);
    }

private:
    Node* makeNode(Node::Form form) {
        m_tree.m_nodes.push_back({.form = form});
        return &m_tree.m_nodes.back();
    }
    Container* makeContainer(Container::Form form, Span frame) {
        m_tree.m_containers.push_back({.form = form, .frame = frame});
        return &m_tree.m_containers.back();
    }

    [[nodiscard]] bool isAt(std::string_view word) const {
        return m_text.substr(m_at).starts_with(word);
    }
    void skipBlanks() { m_at = std::min(m_text.find_first_not_of(" \t", m_at), m_text.size()); }
    /// Blanks, line ends, comments.
    void skipSpace() {
        for (;;) {
            m_at = std::min(m_text.find_first_not_of(" \t\r\n", m_at), m_text.size());
            if (!isAt("#"))
                return;
            m_at = std::min(m_text.find('\n', m_at), m_text.size());
        }
    }

    /// From an opening quote to behind the closing one, of one or of three.
    void skipQuoted() {
        const char quote = m_text[m_at];
        const std::string three(3, quote);
        const bool is_long = isAt(three);
        const std::string_view closing =
            is_long ? std::string_view(three) : std::string_view(three).substr(0, 1);
        m_at += closing.size();
        while (m_at < m_text.size() && !isAt(closing))
            m_at += m_text[m_at] == '\\' && quote == '"' ? 2U : 1U;
        m_at = std::min(m_at + closing.size(), m_text.size());
        for (int more = 0; is_long && more < 2 && isAt(closing.substr(0, 1)); ++more)
            ++m_at; // up to two quotes may belong to the text itself
    }

    [[nodiscard]] bool isAtQuote() const { return isAt("\"") || isAt("'"); }

    std::vector<Word> readKey() {
        std::vector<Word> words;
        for (;;) {
            skipBlanks();
            const std::size_t begin = m_at;
            if (isAtQuote())
                skipQuoted();
            else
                m_at = std::min(m_text.find_first_of(" \t.=]\r\n", m_at), m_text.size());
            const Span span{begin, m_at};
            const std::string_view raw = m_tree.source(span);
            const bool is_quoted = raw.starts_with('"') || raw.starts_with('\'');
            words.push_back({is_quoted ? decoded(raw) : std::string(raw), span});
            skipBlanks();
            if (!isAt("."))
                return words;
            ++m_at;
        }
    }

    static Field* findIn(Node& table, std::string_view name) {
        const auto place = std::ranges::find(table.fields, name, &Field::name);
        return place == table.fields.end() ? nullptr : &*place;
    }

    /// The table or blocks under a header's word, made if it is not there.
    Node& child(Node& table, const Word& word, Node::Form form) {
        if (Field* field = findIn(table, word.name))
            return *field->node;
        Node* node = makeNode(form);
        node->path = (table.path.empty() ? "" : table.path + ".") +
                     (isBare(word.name) ? word.name : std::string(m_tree.source(word.span)));
        table.fields.push_back({.name = word.name, .key = word.span, .node = node});
        return *node;
    }

    Node* readHeader() {
        const std::size_t begin = m_at;
        const bool is_block = isAt("[[");
        m_at += is_block ? 2 : 1;
        const std::vector<Word> words = readKey();
        const std::size_t brackets = is_block ? 2 : 1;
        m_at = std::min(m_at + brackets, m_text.size());
        Node* table = &m_tree.m_nodes.front();
        for (std::size_t i = 0; i + 1 < words.size(); ++i) {
            table = &child(*table, words[i], Node::Form::Table);
            if (!table->elements.empty())
                table = table->elements.back();
        }
        Node& last = child(*table, words.back(), is_block ? Node::Form::Blocks : Node::Form::Table);
        table = &last;
        if (is_block) {
            table = makeNode(Node::Form::Table);
            table->path = last.path;
            last.elements.push_back(table);
        }
        table->home = makeContainer(Container::Form::Section, {begin, m_at});
        return table;
    }

    void readStatement(Node& table) {
        const std::size_t begin = m_at;
        readKeyAndValue(table, *table.home, table.prefix);
        if (m_at == begin)
            ++m_at; // no TOML
    }

    /// `key = value` for a table, where it stands; keys with dots make tables within it.
    void readKeyAndValue(Node& outer, Container& container, const std::string& prefix) {
        const std::vector<Word> words = readKey();
        const std::size_t begin = words.front().span.begin;
        Node* table = &outer;
        for (std::size_t i = 0; i + 1 < words.size(); ++i) {
            table = &child(*table, words[i], Node::Form::Table);
            table->home = &container;
            table->prefix = prefix + std::string(m_tree.source({begin, words[i + 1].span.begin}));
        }
        if (isAt("="))
            ++m_at;
        skipBlanks();
        Node* value = readValue();
        container.items.push_back({begin, value->span.end});
        table->fields.push_back({.name = words.back().name,
                                 .key = words.back().span,
                                 .container = &container,
                                 .item = container.items.size() - 1,
                                 .node = value});
    }

    Node* readValue() {
        if (isAt("["))
            return readArray();
        if (isAt("{"))
            return readInline();
        Node* leaf = makeNode(Node::Form::Leaf);
        leaf->span.begin = m_at;
        if (isAtQuote())
            skipQuoted();
        else
            m_at = std::min(m_text.find_first_of(",]}#\r\n", m_at), m_text.size());
        std::size_t end = m_at;
        while (end > leaf->span.begin && (m_text[end - 1] == ' ' || m_text[end - 1] == '\t'))
            --end;
        leaf->span.end = end;
        return leaf;
    }

    Node* readArray() {
        Node* array = makeNode(Node::Form::Array);
        array->home = makeContainer(Container::Form::Array, {m_at, m_at});
        array->span.begin = m_at++;
        for (skipSpace(); m_at < m_text.size() && !isAt("]"); skipSpace()) {
            if (isAt(",")) {
                array->home->commas.push_back(m_at++);
                continue;
            }
            const std::size_t begin = m_at;
            array->elements.push_back(readValue());
            array->home->items.push_back(array->elements.back()->span);
            if (m_at == begin)
                ++m_at; // no TOML
        }
        return closed(*array);
    }

    Node* readInline() {
        Node* table = makeNode(Node::Form::Inline);
        table->home = makeContainer(Container::Form::Inline, {m_at, m_at});
        table->span.begin = m_at++;
        for (skipSpace(); m_at < m_text.size() && !isAt("}"); skipSpace()) {
            const std::size_t begin = m_at;
            if (isAt(","))
                ++m_at;
            else
                readKeyAndValue(*table, *table->home, "");
            if (m_at == begin)
                ++m_at; // no TOML
        }
        return closed(*table);
    }

    Node* closed(Node& node) {
        m_at = std::min(m_at + 1, m_text.size());
        node.span.end = m_at;
        node.home->frame = node.span;
        return &node;
    }

    Tree& m_tree;
    std::string_view m_text;
    std::size_t m_at = 0;
};

Tree::Tree(std::string_view text) : m_text(text) {
    TreeReader(*this).read();
}

} // namespace ebbline::file
