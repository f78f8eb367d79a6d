// SPDX-License-Identifier: MIT
// Whether the catalogues hold all that an installation names, also after changes.
#include "reading.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

namespace ebbline::file {
namespace {

using Found = std::optional<std::string>;

/// A sentence of the table about the name.
std::string noEntry(const char* sentence, const std::string& name) {
    return words(sentence, inQuotes(name));
}

Found findMissing(const Core& core, const Catalogues& catalogues) {
    const auto sizes = catalogues.conductors.find(core.conductor);
    if (sizes == catalogues.conductors.end())
        return noEntry(phrase("no conductor {} in the catalogue"), core.conductor);
    if (core.size.scale == SizeScale::Mm2 && !sizes->second.contains(core.size.value))
        return noSize(core.conductor, core.size.value, sizes->second);
    return std::nullopt;
}

Found findMissing(const std::string& style, double rating_a, const Catalogues& catalogues) {
    const auto elements = catalogues.fuses.find(style);
    if (elements != catalogues.fuses.end() && elements->second.contains(rating_a))
        return std::nullopt;
    return words("no fuse element of {} A in the catalogue", text::number(rating_a));
}

Found findMissing(const Battery& battery, const Catalogues& catalogues) {
    if (catalogues.chemistries.contains(battery.chemistry))
        return std::nullopt;
    return noEntry(phrase("no chemistry {} in the catalogue"), battery.chemistry);
}
Found findMissing(const Fuse& fuse, const Catalogues& catalogues) {
    if (!catalogues.fuse_styles.contains(fuse.style))
        return noEntry(phrase("no fuse style {} in the catalogue"), fuse.style);
    return fuse.resistance_mohm ? std::nullopt : findMissing(fuse.style, fuse.rating_a, catalogues);
}
Found findMissing(const BenchLeads& leads, const Catalogues& catalogues) {
    const Core lead{.size = {SizeScale::Mm2, leads.area_mm2}, .conductor = BenchLeads::conductor};
    auto missing = findMissing(lead, catalogues);
    return missing ? missing : findMissing("blade", leads.rating_a, catalogues);
}
Found findMissing(const Chassis& chassis, const Catalogues& catalogues) {
    if (chassis.spread_mohm || catalogues.chassis.contains(chassis.material))
        return std::nullopt;
    return noEntry(phrase("no chassis material {} in the catalogue"), chassis.material);
}
template <class Other>
Found findMissing(const Other&, const Catalogues&) {
    return std::nullopt;
}

template <class Thing>
Found findMissingJoint(Thing thing, const Catalogues& catalogues) {
    for (const auto& [name, joint] : installation::jointsOf(thing))
        if (!joint->resistance_mohm && !catalogues.joints.contains(joint->kind))
            return words("{}: {}",
                         inQuotes(name),
                         noEntry(phrase("no joint {} in the catalogue"), joint->kind));
    return std::nullopt;
}

} // namespace

std::optional<std::string> findUncatalogued(const Installation& installation,
                                            const Catalogues& catalogues) {
    for (const Part& part : installation.parts) {
        if (const auto missing = std::visit(
                [&](const auto& body) { return findMissing(body, catalogues); }, part.body))
            return words("{}: {}", inQuotes(part.id), *missing);
        if (auto missing = findMissingJoint(part, catalogues))
            return missing;
    }
    for (const Run& run : installation.runs) {
        for (std::size_t i = 0; i < run.cores.size(); ++i)
            if (const auto missing = findMissing(run.cores[i], catalogues))
                return words("{}: {}", inQuotes(run.coreName(i)), *missing);
        if (auto missing = findMissingJoint(run, catalogues))
            return missing;
    }
    return std::nullopt;
}

} // namespace ebbline::file
