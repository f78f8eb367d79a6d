// SPDX-License-Identifier: MIT
// Whether everything that wiring names is there.
#include "owners.h"

#include "ebbline/text.h"

#include <algorithm>
#include <map>
#include <set>

namespace ebbline::installation {
namespace {

using Found = std::optional<std::string>;

std::string quoted(const std::string& word) {
    return text::inQuotes(word);
}

/// What ends where, looked up by name.
class Wiring {
public:
    explicit Wiring(const Installation& installation) : m_installation(installation) {
        for (const Part& part : installation.parts)
            for (const std::string& terminal : terminalsOf(part))
                m_terminals.insert({part.id, terminal});
        for (const Run& run : installation.runs)
            for (std::size_t i = 0; i < run.cores.size(); ++i)
                for (const char* end : {"from", "to"}) {
                    const std::string name = run.endName(i, end);
                    const Terminal at{run.id, name.substr(run.id.size() + 1)};
                    m_ends[at] =
                        std::string_view(end) == "from" ? run.cores[i].from : run.cores[i].to;
                }
    }

    [[nodiscard]] Found findTakenId() const {
        std::set<std::string> ids;
        for (const Part& part : m_installation.parts)
            if (!ids.insert(part.id).second)
                return "the id " + quoted(part.id) + " is taken";
        for (const Run& run : m_installation.runs)
            if (!ids.insert(run.id).second)
                return "the id " + quoted(run.id) + " is taken";
        return std::nullopt;
    }

    [[nodiscard]] Found findLooseEnd() const {
        for (const auto& [end, terminal] : m_ends)
            if (!m_terminals.contains(terminal))
                return quoted(end.text()) + " ends at " + quoted(terminal.text()) +
                       ", which is not there";
        return std::nullopt;
    }

    [[nodiscard]] Found check(const Part& part, const Stud& stud) const {
        if (stud.stack.empty())
            return std::nullopt;
        std::set<Terminal> here;
        for (const auto& [end, terminal] : m_ends)
            if (terminal.part == part.id)
                here.insert(end);
        const std::set<Terminal> stacked(stud.stack.begin(), stud.stack.end());
        if (stacked == here && stacked.size() == stud.stack.size())
            return std::nullopt;
        return "the stack of " + quoted(part.id) + " does not hold just the lugs bolted to it";
    }
    [[nodiscard]] Found check(const Part& part, const Bond& bond) const {
        const Part* chassis = m_installation.findPart(bond.to);
        if (chassis != nullptr && std::holds_alternative<Chassis>(chassis->body))
            return std::nullopt;
        return quoted(part.id) + " is bolted to " + quoted(bond.to) + ", which is no chassis";
    }
    [[nodiscard]] Found check(const Part& part, const Meter& meter) const {
        for (const Terminal& lead : {meter.plus, meter.minus})
            if (!m_terminals.contains(lead) && !m_ends.contains(lead))
                return "a lead of " + quoted(part.id) + " is on " + quoted(lead.text()) +
                       ", which is not there";
        return std::nullopt;
    }
    template <class Other>
    [[nodiscard]] Found check(const Part&, const Other&) const {
        return std::nullopt;
    }

private:
    const Installation& m_installation;
    std::set<Terminal> m_terminals;
    std::map<Terminal, Terminal> m_ends; ///< run end -> where it ends
};

} // namespace

Found findBrokenWiring(const Installation& installation) {
    const Wiring wiring(installation);
    if (auto found = wiring.findTakenId())
        return found;
    if (auto found = wiring.findLooseEnd())
        return found;
    for (const Part& part : installation.parts)
        if (auto found =
                std::visit([&](const auto& body) { return wiring.check(part, body); }, part.body))
            return found;
    const Part* subject = installation.findPart(installation.subject);
    if (subject == nullptr || !std::holds_alternative<Controller>(subject->body))
        return "the subject " + quoted(installation.subject) + " is no controller";
    return std::nullopt;
}

} // namespace ebbline::installation
