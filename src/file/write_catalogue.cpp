// SPDX-License-Identifier: MIT
// One part as a catalogue of its own.
#include "write.h"

#include "ebbline/error.h"
#include "ebbline/file.h"

namespace ebbline::file {

std::string writeCatalogue(const CatalogueEntry& entry) {
    const std::string kind(installation::kindOf(entry.part));
    std::string out = "ebbline = 1\nwhat = \"parts\"\n\n";
    out += blockOf("[[" + kind + "]]",
                   {{"id", quotedText(entry.part.id)},
                    {"certainty", quotedText(entry.certainty)},
                    {"source", quotedText(entry.source)}});
    for (const auto& [heading, keys] : entry.groups) {
        Lines lines;
        for (const std::string& name : keys) {
            const installation::Key* key = installation::findKey(kind, name);
            EBBLINE_ASSERT(key != nullptr, "an entry has keys of its kind");
            if (const auto value = installation::get(entry.part, *key))
                lines.emplace_back(name, token(*value));
        }
        out += "\n" + blockOf("# " + heading, lines);
    }
    return out;
}

} // namespace ebbline::file
