// SPDX-License-Identifier: MIT
// The command that follows a day of cycling.
#include "hours.h"

#include "progress.h"
#include "scene.h"

#include "ebbline/hours_telling.h"

#include <iostream>

namespace ebbline::cli {

ExitCode hours(const HoursOptions& options) {
    const Scene scene = readScene(options.scene);
    const auto engine = engine::makePool({});
    Progress progress;
    const Hours found =
        study::runHours(*engine, scene.installation, scene.models, [&](const std::string& step) {
            progress.show(step);
        });
    progress.clear();
    if (options.json != "-" && options.csv != "-")
        std::cout << report::writeHours(found) << std::flush;
    if (!options.json.empty())
        write(options.json, report::writeHoursJson(found));
    if (!options.csv.empty())
        write(options.csv, report::writeDay(found.day));
    return ExitCode::Ran;
}

} // namespace ebbline::cli
