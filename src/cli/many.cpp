// SPDX-License-Identifier: MIT
// The command that runs many starts into a table.
#include "many.h"

#include "growing_table.h"
#include "pace.h"
#include "progress.h"
#include "scene.h"

#include "ebbline/many_telling.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <iostream>
#include <utility>

namespace ebbline::cli {
namespace {

bool isJson(const ManyOptions& options) {
    return options.output.ends_with(".jsonl");
}

void checkOutput(const ManyOptions& options) {
    if (options.output != "-" && !isJson(options) && !options.output.ends_with(".csv"))
        throw SceneError({Problem{
            .message = words("--output is '{}', expected a name that ends in .csv or .jsonl",
                             options.output)}});
}

/// Hash of all that the rows depend on.
std::string contentOf(const ManyOptions& options, const Scene& scene) {
    std::string all = EBBLINE_VERSION;
    const auto add = [&all](std::string_view piece) {
        all += '\0';
        all += piece;
    };
    add(options.draft ? "draft" : "final");
    add(isJson(options) ? "json" : "csv");
    add(scene.document.text);
    for (const auto* changes : {&options.scene.with, &options.scene.set})
        for (const std::string& change : *changes)
            add(change);
    add(file::readBytes(options.each));
    // The models and what catalogues say of what is drawn.
    const Network network = network::build(scene.installation, scene.models.catalogues);
    add(netlist::build(network, scene.models, {}).job.circuit);
    return text::contentHash(all);
}

/// A line for each worker that was lost with a case, which is tried again.
void tellLoss(Progress& progress, const engine::Loss& loss) {
    progress.clear();
    std::cerr << words("a worker was lost ({}); its run is tried again",
                       engine::reasonInWords(loss.reason))
              << '\n';
}

} // namespace

ExitCode many(const ManyOptions& options) {
    checkOutput(options);
    const Scene scene = readScene(options.scene);
    const Cases cases = file::readCases(options.each, scene.installation);
    GrowingTable table(options.output,
                       contentOf(options, scene),
                       isJson(options) ? "" : report::writeCsvHead(cases));
    Progress progress;
    const auto pool =
        engine::makePool({.on_loss = [&](const engine::Loss& loss) { tellLoss(progress, loss); }});
    const Pace pace(table.rows(), cases.size(), Pace::Clock::now());
    std::size_t failed = 0;
    static_cast<void>(study::runMany(
        *pool,
        scene.installation,
        scene.models,
        cases,
        {.accuracy = options.draft ? Accuracy::Draft : Accuracy::Final, .first = table.rows()},
        [&](const Row& row) {
            failed += row.error.empty() ? 0U : 1U;
            table.add(isJson(options) ? report::writeJsonRow(row) : report::writeCsvRow(row));
            progress.show(pace.words(table.rows(), Pace::Clock::now()));
        },
        {}));
    table.finish();
    progress.clear();
    if (failed == 0)
        return ExitCode::Ran;
    std::cerr << words("{} of {} cases have no result; see the last column", failed, cases.size())
              << '\n';
    return ExitCode::EngineFailed;
}

} // namespace ebbline::cli
