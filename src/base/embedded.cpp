// SPDX-License-Identifier: MIT
// Look-up among the files inside the program.
#include "ebbline/embedded.h"

#include "ebbline/error.h"

#include <algorithm>

namespace ebbline::embedded {

const File& findFile(std::string_view name) {
    const auto files = all();
    const auto place = std::ranges::find(files, name, &File::name);
    EBBLINE_ASSERT(place != files.end(), "every file asked for is embedded");
    return *place;
}

std::string_view find(std::string_view name) {
    return findFile(name).text;
}

} // namespace ebbline::embedded
