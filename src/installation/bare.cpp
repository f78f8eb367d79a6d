// SPDX-License-Identifier: MIT
// A part as its catalogue has it, without what the drawing says of it.
#include "ebbline/models.h"

namespace ebbline::installation {

Part bareOf(const Part& part, const Catalogues& catalogues) {
    const std::string kind(kindOf(part));
    Part bare{.id = part.id, .body = makeBody(kind).value_or(part.body)};
    const auto of_kind = catalogues.parts.find(kind);
    if (part.model.empty() || of_kind == catalogues.parts.end())
        return bare;
    if (const auto model = of_kind->second.find(part.model); model != of_kind->second.end())
        for (const auto& [name, value] : model->second)
            set(bare, *findKey(kind, name), value);
    return bare;
}

} // namespace ebbline::installation
