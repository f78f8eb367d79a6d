// SPDX-License-Identifier: MIT
// Whether everything that wiring names is there.
#include "owners.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

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
                return words("the id {} is taken", quoted(part.id));
        for (const Run& run : m_installation.runs)
            if (!ids.insert(run.id).second)
                return words("the id {} is taken", quoted(run.id));
        return std::nullopt;
    }

    [[nodiscard]] Found findLooseEnd() const {
        for (const auto& [end, terminal] : m_ends)
            if (!m_terminals.contains(terminal))
                return words("{} ends at {}, which is not there",
                             quoted(end.text()),
                             quoted(terminal.text()));
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
        return words("the stack of {} does not hold just the lugs bolted to it", quoted(part.id));
    }
    [[nodiscard]] Found check(const Part& part, const Bond& bond) const {
        const Part* chassis = m_installation.findPart(bond.to);
        if (chassis != nullptr && std::holds_alternative<Chassis>(chassis->body))
            return std::nullopt;
        return words("{} is bolted to {}, which is no chassis", quoted(part.id), quoted(bond.to));
    }
    [[nodiscard]] Found check(const Part& part, const Meter& meter) const {
        for (const Terminal& lead : {meter.plus, meter.minus})
            if (!m_terminals.contains(lead) && !m_ends.contains(lead))
                return words("a lead of {} is on {}, which is not there",
                             quoted(part.id),
                             quoted(lead.text()));
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
        return words("the subject {} is no controller", quoted(installation.subject));
    return std::nullopt;
}

} // namespace ebbline::installation
