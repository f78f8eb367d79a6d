// SPDX-License-Identifier: MIT
// The sheet for a class, and its answers.
#include "ebbline/handout.h"

#include "commands.h"
#include "progress.h"
#include "scene.h"

#include "ebbline/engine.h"

#include <filesystem>

namespace ebbline::cli {
namespace {

HandoutEdition editionOf(const Scene& scene, const HandoutOptions& options) {
    return {.paper = options.paper == "letter" ? SheetSize::Letter : SheetSize::A4,
            .version = EBBLINE_VERSION,
            .scene = std::filesystem::path(options.scene.scene).filename().string(),
            .changes = changesOf(scene, options.scene)};
}

std::string answer(const Scene& scene, const HandoutOptions& options) {
    const auto engine = engine::makePool({});
    Progress progress;
    const Inquiry inquiry = study::inquire(
        *engine, scene.installation, scene.models, options.rules, [&](const std::string& step) {
            progress.show(step);
        });
    progress.clear();
    return report::writeAnswerSheet(inquiry, scene.models.catalogues, editionOf(scene, options));
}

} // namespace

ExitCode handout(const HandoutOptions& options) {
    const Scene scene = readScene(options.scene);
    // The class's sheet needs no simulation: it must not know what comes of it.
    write(options.output,
          options.answers ? answer(scene, options)
                          : report::writeClassSheet(scene.installation,
                                                    scene.models.catalogues,
                                                    editionOf(scene, options)));
    return ExitCode::Ran;
}

} // namespace ebbline::cli
