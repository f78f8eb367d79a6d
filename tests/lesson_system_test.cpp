// SPDX-License-Identifier: MIT
// Lessons never say what is not: every step of those that are shipped holds, and one that lies is
// found out.
#include "runs.h"

#include "ebbline/file.h"
#include "ebbline/lesson_check.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace ebbline;

namespace {

std::vector<std::filesystem::path> shippedLessons() {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry :
         std::filesystem::directory_iterator(EBBLINE_SOURCE_DIR "/scenes/lessons"))
        paths.push_back(entry.path());
    return paths;
}

} // namespace

TEST_CASE("every step of every lesson holds", "[lesson]") {
    REQUIRE(shippedLessons().size() >= 4);
    const auto pool = runs::makePool();
    const Models& models = file::embeddedModels();
    for (const auto& path : shippedLessons()) {
        const LessonFile made = file::readLesson(path, models.catalogues);
        const auto contradictions =
            study::checkLesson(*pool, made.lesson, made.document.installation, models);
        for (std::size_t i = 0; i < contradictions.size(); ++i) {
            CAPTURE(path.filename().string(), made.lesson.steps[i].say);
            CHECK(contradictions[i].empty());
            CAPTURE(contradictions[i]);
        }
    }
}

TEST_CASE("an expectation that is not so is found out", "[lesson]") {
    const Models& models = file::embeddedModels();
    const auto path = EBBLINE_SOURCE_DIR "/scenes/lessons/thin-against-thick.toml";
    const LessonFile made = file::readLesson(path, models.catalogues);
    const Examination examination = runs::examineBriefly(made.document.installation);
    const auto whole = [&](Expectation expectation) {
        Examination with_network = examination;
        with_network.network = network::build(made.document.installation, models.catalogues);
        return study::findContradiction(expectation, with_network);
    };
    CHECK(whole({}).empty());
    CHECK(whole({.outcome = "trips"}).empty());
    CHECK(whole({.outcome = "starts"}) == "expected 'starts', found 'trips'");
    CHECK(whole({.spare_v = Expectation::Range{-0.4, -0.2}}).empty());
    CHECK(whole({.spare_v = Expectation::Range{0, 1}}) ==
          "to spare: expected 0.00 to 1.00 V, found -0.30 V");
    CHECK(whole({.lost_in = "twin", .lost_v = Expectation::Range{1.9, 2.2}}).empty());
    CHECK(whole({.lost_in = "twin", .lost_v = Expectation::Range{0, 1}})
              .starts_with("lost in twin: expected 0.00 to 1.00 V, found 2.0"));
    CHECK(whole({.lost_in = "nobody", .lost_v = Expectation::Range{0, 1}}).ends_with("found none"));
}
