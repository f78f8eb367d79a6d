// SPDX-License-Identifier: MIT
// Counting through a list of changes and the combinations of varied keys.
#include "ebbline/cases.h"

#include <algorithm>

namespace ebbline {

std::size_t Cases::size() const {
    std::size_t size = std::max<std::size_t>(listed.size(), 1);
    for (const Variation& variation : variations)
        size *= variation.values.size();
    return size;
}

SingleCase Cases::at(std::size_t index) const {
    SingleCase result{.number = index + 1};
    for (auto variation = variations.rbegin(); variation != variations.rend(); ++variation) {
        const std::size_t many = variation->values.size();
        result.variation.emplace_back(variation->path, variation->values[index % many]);
        index /= many;
    }
    std::ranges::reverse(result.variation);
    if (!listed.empty()) {
        result.name = listed[index].name;
        result.changes = listed[index].changes;
    }
    for (const auto& [path, value] : result.variation)
        result.changes.emplace_back(Set{path, value});
    return result;
}

} // namespace ebbline
