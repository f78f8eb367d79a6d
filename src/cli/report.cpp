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
namespace {

/// By what the installation differs from what the file says, as it was asked for.
std::vector<std::string> changesOf(const Scene& scene, const SceneOptions& options) {
    std::vector<std::string> changes;
    for (const std::string& id : options.with) {
        const ChangeSet* set = scene.document.installation.findChangeSet(id);
        changes.push_back(set == nullptr || set->name.empty() ? id : id + " (" + set->name + ")");
    }
    changes.insert(changes.end(), options.set.begin(), options.set.end());
    return changes;
}

} // namespace

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
