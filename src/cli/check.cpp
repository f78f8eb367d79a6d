// SPDX-License-Identifier: MIT
// Commands that simulate nothing: what the graph says, and what can be drawn.
#include "commands.h"
#include "scene.h"

#include "ebbline/report.h"
#include "ebbline/survey.h"

#include <iostream>

namespace ebbline::cli {
namespace {

/// The text unless JSON takes its place, and JSON where it is wanted.
template <class WriteText, class WriteJson>
void show(const std::string& json, const WriteText& write_text, const WriteJson& write_json) {
    if (json != "-")
        std::cout << write_text() << std::flush;
    if (!json.empty())
        write(json, write_json());
}

} // namespace

ExitCode check(const CheckOptions& options) {
    const Scene scene = readScene(options.scene);
    const Network network = network::build(scene.installation, scene.models.catalogues);
    const Survey survey = network::survey(network);
    show(
        options.json,
        [&] { return report::writeSurvey(network, survey); },
        [&] { return report::writeSurveyJson(network, survey); });
    return ExitCode::Ran;
}

ExitCode parts(const PartsOptions& options) {
    const Models models =
        options.models.empty() ? file::embeddedModels() : file::readModels(options.models);
    const report::Listing listing{.catalogues = !options.terminals && !options.keys,
                                  .terminals = options.terminals,
                                  .keys = options.keys};
    show(
        options.json,
        [&] { return report::writeParts(models.catalogues, listing); },
        [&] { return report::writePartsJson(models.catalogues, listing); });
    return ExitCode::Ran;
}

} // namespace ebbline::cli
