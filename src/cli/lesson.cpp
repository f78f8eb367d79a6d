// SPDX-License-Identifier: MIT
// ebbline lesson: every step of a lesson, and whether what it expects is so.
#include "commands.h"

#include "ebbline/engine.h"
#include "ebbline/file.h"
#include "ebbline/lesson_check.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <iostream>

namespace ebbline::cli {

ExitCode lesson(const LessonOptions& options) {
    Models models = file::embeddedModels();
    const LessonFile read = file::readLesson(options.lesson, models.catalogues);
    models.catalogues = read.document.catalogues;
    const Installation& scene = read.document.installation;
    const auto engine = engine::makePool({});
    const auto contradictions =
        study::checkLesson(*engine,
                           read.lesson,
                           installation::apply(scene, installation::faultChanges(scene)),
                           models);
    std::cout << text::escapeControls(read.lesson.title) << '\n';
    for (std::size_t i = 0; i < contradictions.size(); ++i) {
        const std::string& wrong = contradictions[i];
        std::cout << words("{}. {}", i + 1, text::escapeControls(read.lesson.steps[i].say))
                  << "\n   " << (wrong.empty() ? words("holds") : words("does not hold: {}", wrong))
                  << '\n';
    }
    const bool holds = std::ranges::all_of(contradictions, &std::string::empty);
    return holds ? ExitCode::Ran : ExitCode::NotAsExpected;
}

} // namespace ebbline::cli
