// SPDX-License-Identifier: MIT
// The report that travels.
#include "commands.h"
#include "progress.h"
#include "scene.h"

#include "ebbline/engine.h"
#include "ebbline/html.h"
#include "ebbline/words.h"

#include <filesystem>

namespace ebbline::cli {

ExitCode writeReport(const ReportOptions& options) {
    const Scene scene = readScene(options.scene);
    const auto engine = engine::makePool({});
    Progress progress;
    const Inquiry inquiry = study::inquire(
        *engine, scene.installation, scene.models, options.rules, [&](const std::string& step) {
            progress.show(step);
        });
    progress.show(words("drawing"));
    const std::string page =
        report::writeHtml(inquiry,
                          {.version = EBBLINE_VERSION,
                           .date = options.date,
                           .scene = std::filesystem::path(options.scene.scene).filename().string(),
                           .scene_text = scene.document.text,
                           .changes = changesOf(scene, options.scene)});
    progress.clear();
    write(options.output, page);
    return ExitCode::Ran;
}

} // namespace ebbline::cli
