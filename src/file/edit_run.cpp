// SPDX-License-Identifier: MIT
// Runs in the text, brought to what they shall be key by key.
#include "edit_state.h"

#include <algorithm>
#include <optional>

namespace ebbline::file {
namespace {

class RunPen {
public:
    RunPen(Pen& pen, const Tree& tree, const Node& node, const RunFix& run)
        : m_pen(pen), m_tree(tree), m_node(node), m_was(run.was), m_wanted(run.wanted),
          m_cleared(run.cleared) {}

    void fix() {
        static_cast<void>(linesOf(m_wanted)); // refuses what no file can say
        fixText(m_pen, m_node, "name", m_was.name, m_wanted.name);
        fixText(m_pen, m_node, "note", m_was.note, m_wanted.note);
        fixEnds();
        fixSizes();
        if (m_cleared.hits(m_was.id, "runs", "conductor"))
            m_pen.erase(m_node, "conductor");
        else
            fixCores("conductor", quotedText(Core{}.conductor), [](const Core& core) {
                return quotedText(core.conductor);
            });
        for (const installation::RunNumber& number : installation::runNumbers())
            fixNumber(number.name, number.of(m_was), number.of(m_wanted));
        fixList(
            m_pen, m_tree, m_node, "route_m", tokensOf(m_was.route_m), tokensOf(m_wanted.route_m));
        fixJointsAt("from", &Core::joint_from);
        fixJointsAt("to", &Core::joint_to);
    }

private:
    template <class Read>
    static std::vector<std::string> eachOf(const Run& run, const Read& read) {
        std::vector<std::string> tokens;
        tokens.reserve(run.cores.size());
        for (const Core& core : run.cores)
            tokens.push_back(read(core));
        return tokens;
    }

    template <class Read>
    void fixCores(std::string_view key, const std::string& otherwise, const Read& read) {
        fixEach(m_pen,
                m_tree,
                m_node,
                {.key = key,
                 .was = eachOf(m_was, read),
                 .wanted = eachOf(m_wanted, read),
                 .otherwise = otherwise});
    }

    /// Ends stay an array where they were one: both keys must be of one form.
    void fixEnds() {
        const auto read_from = [](const Core& core) { return token(core.from); };
        const auto read_to = [](const Core& core) { return token(core.to); };
        if (m_was.cores.size() == m_wanted.cores.size()) {
            fixCores("from", "", read_from);
            fixCores("to", "", read_to);
        } else {
            m_pen.set(m_node, "from", listed(eachOf(m_wanted, read_from)));
            m_pen.set(m_node, "to", listed(eachOf(m_wanted, read_to)));
        }
    }

    void fixSizes() {
        const std::string_view key = keyOf(m_was.cores[0].size.scale);
        const std::string_view wanted = keyOf(m_wanted.cores[0].size.scale);
        fixCores(key, "", [](const Core& core) { return token(core.size); });
        if (const Field* field = m_node.find(key); field != nullptr && key != wanted)
            m_pen.replace(field->key, std::string(wanted));
    }

    void fixNumber(std::string_view key, std::optional<double> was, std::optional<double> wanted) {
        if (m_cleared.hits(m_was.id, "runs", key) || (was != wanted && !wanted))
            m_pen.erase(m_node, key);
        else if (was != wanted)
            m_pen.set(m_node, key, token(*wanted));
    }

    void fixJointsAt(const std::string& end, Joint Core::* member) {
        JointsFix joints{.key = "joint_" + end,
                         .was = {},
                         .wanted = {},
                         .otherwise = {},
                         .names = {},
                         .cleared = m_cleared};
        for (std::size_t i = 0; i < m_was.cores.size(); ++i) {
            joints.was.push_back(m_was.cores[i].*member);
            joints.names.push_back(m_was.endName(i, end));
        }
        for (const Core& core : m_wanted.cores)
            joints.wanted.push_back(core.*member);
        fixJoints(m_pen, m_tree, m_node, joints);
    }

    Pen& m_pen;
    const Tree& m_tree;
    const Node& m_node;
    const Run& m_was;
    const Run& m_wanted;
    const Cleared& m_cleared;
};

} // namespace

void fix(Pen& pen, const Tree& tree, const Node& node, const RunFix& run) {
    RunPen(pen, tree, node, run).fix();
}

} // namespace ebbline::file
