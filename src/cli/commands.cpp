// SPDX-License-Identifier: MIT
// The commands: read, run, write.
#include "commands.h"

#include "progress.h"
#include "scene.h"

#include "ebbline/engine.h"
#include "ebbline/inquiry.h"
#include "ebbline/report.h"
#include "ebbline/words.h"

#include <iostream>
#include <utility>

namespace ebbline::cli {
namespace {

/// What programs read does not follow the reader.
std::string jsonInEnglish(const Inquiry& inquiry, const Scene& scene, const RuleSettings& rules) {
    Reader before = reader();
    setReader({});
    std::string json = report::writeJson(study::judge(
        inquiry.examination, inquiry.remedies, scene.installation, scene.models, rules));
    setReader(std::move(before));
    return json;
}

} // namespace

ExitCode start(const StartOptions& options) {
    const Scene scene = readScene(options.scene);
    const auto engine = engine::makePool({});
    Progress progress;
    const Inquiry inquiry = study::inquire(
        *engine, scene.installation, scene.models, options.rules, [&](const std::string& step) {
            progress.show(step);
        });
    progress.clear();
    if (options.json != "-" && options.waveform != "-")
        std::cout << report::writeText(inquiry) << std::flush;
    if (!options.json.empty())
        write(options.json, jsonInEnglish(inquiry, scene, options.rules));
    if (!options.waveform.empty())
        write(options.waveform, report::writeWaveform(inquiry.examination.start.waveform));
    const std::string_view outcome = nameOf(inquiry.examination.start.outcome);
    if (!options.expect.empty() && options.expect != outcome) {
        std::cerr << words("expected '{}', found '{}'", options.expect, outcome) << '\n';
        return ExitCode::NotAsExpected;
    }
    return ExitCode::Ran;
}

ExitCode deck(const DeckOptions& options) {
    const Scene scene = readScene(options.scene);
    const Network network = network::build(scene.installation, scene.models.catalogues);
    const Netlist netlist =
        netlist::build(options.full ? network : network::reduce(network),
                       scene.models,
                       {.held_off = options.held_off, .attempts = options.attempts});
    write(options.output, netlist.job.circuit);
    return ExitCode::Ran;
}

} // namespace ebbline::cli
