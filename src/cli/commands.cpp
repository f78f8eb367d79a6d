// SPDX-License-Identifier: MIT
// The commands: read, run, write.
#include "commands.h"

#include "progress.h"

#include "ebbline/engine.h"
#include "ebbline/file.h"
#include "ebbline/report.h"
#include "ebbline/study.h"

#include <fmt/core.h>

#include <fstream>
#include <iostream>
#include <system_error>

namespace ebbline::cli {
namespace {

Models readModels(const std::string& folder) {
    return folder.empty() ? file::embeddedModels() : file::readModels(folder);
}

Document readScene(const std::string& scene, const Models& models) {
    return scene.empty()
               ? file::readText(file::embeddedScene(), "embedded scene", models.catalogues)
               : file::read(scene, models.catalogues);
}

void write(const std::string& path, const std::string& text) {
    if (path == "-") {
        std::cout << text << std::flush;
        return;
    }
    std::ofstream file(path, std::ios::binary);
    file << text << std::flush;
    if (!file)
        throw std::system_error(errno, std::generic_category(), "cannot write '" + path + "'");
}

} // namespace

ExitCode start(const StartOptions& options) {
    const Models models = readModels(options.models);
    const Document document = readScene(options.scene, models);
    const auto engine = engine::makePool({});
    Progress progress;
    const Examination examination =
        study::runStart(*engine, document.installation, models, [&](const std::string& step) {
            progress.show(step);
        });
    progress.clear();
    if (options.json != "-")
        std::cout << report::writeText(examination) << std::flush;
    if (!options.json.empty())
        write(options.json, report::writeJson(examination));
    const std::string_view outcome = nameOf(examination.start.outcome);
    if (!options.expect.empty() && options.expect != outcome) {
        std::cerr << fmt::format("expected '{}', found '{}'\n", options.expect, outcome);
        return ExitCode::NotAsExpected;
    }
    return ExitCode::Ran;
}

ExitCode deck(const DeckOptions& options) {
    const Models models = readModels(options.models);
    const Document document = readScene(options.scene, models);
    const Network network = network::build(document.installation, models.catalogues);
    const Netlist netlist =
        netlist::build(options.full ? network : network::reduce(network),
                       models,
                       {.held_off = options.held_off, .attempts = options.attempts});
    write(options.output, netlist.job.circuit);
    return ExitCode::Ran;
}

} // namespace ebbline::cli
