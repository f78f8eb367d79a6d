// SPDX-License-Identifier: MIT
// Whether everything that is named exists.
#include "references.h"

#include <algorithm>
#include <set>

namespace ebbline::file {
namespace {

void checkEnd(const Installation& installation,
              const Terminal& end,
              const Places& places,
              Problems& problems) {
    const auto place = places.find(end.text());
    if (place == places.end())
        return; // ill-formed, already reported
    const Part* part = installation.findPart(end.part);
    if (part == nullptr) {
        std::vector<std::string> ids;
        ids.reserve(installation.parts.size());
        for (const Part& known : installation.parts)
            ids.push_back(known.id);
        problems.addUnknown(place->second, "part", end.part, ids);
        return;
    }
    const auto terminals = installation::terminalsOf(*part);
    if (std::ranges::find(terminals, end.terminal) == terminals.end())
        problems.addUnknown(place->second,
                            "terminal of the " + std::string(installation::kindOf(*part)),
                            end.terminal,
                            terminals);
}

void checkStack(const Part& part,
                const Stud& stud,
                const std::set<std::string>& ends_here,
                const Places& places,
                Problems& problems) {
    for (const Terminal& lug : stud.stack)
        if (!ends_here.contains(lug.text()))
            problems.add(places.at(lug.text()),
                         "'" + lug.text() + "' does not end at '" + part.id +
                             ".post', expected a run end that does");
}

} // namespace

void checkReferences(const Installation& installation, const Places& places, Problems& problems) {
    std::map<std::string, std::set<std::string>> ends_at; // part -> run ends
    for (const Run& run : installation.runs)
        for (std::size_t i = 0; i < run.cores.size(); ++i) {
            const Core& core = run.cores[i];
            checkEnd(installation, core.from, places, problems);
            checkEnd(installation, core.to, places, problems);
            ends_at[core.from.part].insert(run.endName(i, "from"));
            ends_at[core.to.part].insert(run.endName(i, "to"));
        }
    for (const Part& part : installation.parts)
        if (const auto* stud = std::get_if<Stud>(&part.body))
            checkStack(part, *stud, ends_at[part.id], places, problems);
}

} // namespace ebbline::file
