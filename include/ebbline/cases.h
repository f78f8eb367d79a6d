// SPDX-License-Identifier: MIT
// Many installations from one drawing: a list of changes, and every combination of varied keys.
#pragma once

#include "ebbline/installation.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace ebbline {

/// A row of the list.
struct ListedCase {
    std::string name; ///< free text, may be empty
    std::vector<Change> changes;
};

/// A key and the values it takes one after the other.
struct Variation {
    std::string path;
    std::vector<Value> values; ///< at least one
};

/// One installation of many: what is different about it.
struct SingleCase {
    std::size_t number = 1; ///< counted from 1
    std::string name;
    std::vector<Change> changes;                          ///< in the order in which they are made
    std::vector<std::pair<std::string, Value>> variation; ///< the varied keys with their values
};

struct Cases {
    std::vector<ListedCase> listed; ///< none: the drawing as it is
    std::vector<Variation> variations;

    /// Rows of the list times the number of combinations.
    [[nodiscard]] std::size_t size() const;
    /// Counted from 0; the last variation changes fastest, the list slowest.
    [[nodiscard]] SingleCase at(std::size_t index) const;
};

} // namespace ebbline
