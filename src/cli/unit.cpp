// SPDX-License-Identifier: MIT
// The command that makes a controller from five numbers.
#include "unit.h"

#include "progress.h"
#include "scene.h"

#include "ebbline/engine.h"
#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/unit_telling.h"
#include "ebbline/words.h"

#include <iostream>

namespace ebbline::cli {
namespace {

void checkId(const std::string& id) {
    constexpr std::size_t longest = 40;
    constexpr const char* letters = "abcdefghijklmnopqrstuvwxyz0123456789-";
    const bool is_one = !id.empty() && id.size() <= longest && id.front() >= 'a' &&
                        id.front() <= 'z' && id.find_first_not_of(letters) == std::string::npos;
    if (!is_one)
        throw SceneError(
            {Problem{.message = words("{} is no id, expected a small letter, then up to 39 of "
                                      "a-z 0-9 -",
                                      text::inQuotes(id))}});
}

} // namespace

ExitCode unit(const UnitOptions& options) {
    checkId(options.id);
    const Models models =
        options.models.empty() ? file::embeddedModels() : file::readModels(options.models);
    const auto engine = engine::makePool({.workers = 1});
    Progress progress;
    const UnitFit fit = study::fitUnit(
        *engine, options.figures, models, [&](const std::string& step) { progress.show(step); });
    progress.clear();
    if (options.output != "-")
        std::cout << report::writeFit(fit) << std::flush;
    if (!options.output.empty())
        write(options.output, report::writeUnit(fit, options.id));
    return ExitCode::Ran;
}

} // namespace ebbline::cli
