// SPDX-License-Identifier: MIT
// Lessons as files: what is read, what is refused and where.
#include "scratch.h"

#include "ebbline/error.h"
#include "ebbline/file.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace ebbline;

namespace {

/// A lesson beside a copy of the scene that travels inside the program.
LessonFile read(const std::string& steps, const std::string& scene = "first.toml") {
    const Scratch scratch;
    std::ofstream(scratch.path() / "first.toml") << file::embeddedScene();
    std::ofstream(scratch.path() / "lesson.toml")
        << "ebbline = 1\nwhat = \"lesson\"\ntitle = \"t\"\nscene = \"" << scene << "\"\n"
        << steps;
    return file::readLesson(scratch.path() / "lesson.toml", file::embeddedModels().catalogues);
}

std::string refusal(const std::string& steps, const std::string& scene = "first.toml") {
    try {
        static_cast<void>(read(steps, scene));
    } catch (const SceneError& error) {
        const Problem& first = error.problems().front();
        return std::to_string(first.line) + ": " + first.message;
    }
    return "";
}

} // namespace

TEST_CASE("a lesson is its steps and a scene", "[lesson]") {
    const LessonFile made =
        read("[[step]]\nsay = \"first\"\nask = \"why?\"\nanswer = \"so\"\nhide = true\n"
             "[[step]]\nsay = \"second\"\nlook = \"gap\"\nplay = true\nat_s = 0.5\n"
             "expect = { outcome = \"trips\", spare_v = [-1, 0.5], "
             "lost_in = \"twin\", lost_v = [1, 2] }\n");
    REQUIRE(made.lesson.steps.size() == 2);
    CHECK(made.lesson.title == "t");
    CHECK(made.lesson.steps[0].hides);
    CHECK(made.lesson.steps[0].answer == "so");
    CHECK(made.lesson.steps[0].look == LessonLook::Page);
    CHECK(made.lesson.steps[1].look == LessonLook::Gap);
    CHECK(made.lesson.steps[1].plays);
    CHECK(made.lesson.steps[1].at_s == 0.5);
    CHECK(made.lesson.steps[1].expect.spare_v == Expectation::Range{-1, 0.5});
    CHECK(made.lesson.steps[1].expect.lost_in == "twin");
    CHECK_FALSE(made.document.installation.parts.empty());
}

TEST_CASE("what is wrong in a lesson is said with its place", "[lesson]") {
    CHECK(refusal("") == "1: a lesson without steps");
    CHECK(refusal("[[step]]\nask = \"why?\"\nsay = \"x\"\n").starts_with("5: 'ask' and 'answer'"));
    CHECK(refusal("[[step]]\nsay = \"x\"\nlook = \"sky\"\n").starts_with("7: 'look' wants"));
    CHECK(refusal("[[step]]\nsay = \"x\"\nhide = 1\n").starts_with("7: 'hide' wants"));
    CHECK(refusal("[[step]]\nsay = \"x\"\nloud = true\n").starts_with("7: unknown key"));
    CHECK(refusal("[[step]]\nsay = \"x\"\nset = { \"nobody.area_mm2\" = 4 }\n").starts_with("7: "));
    CHECK(refusal("[[step]]\nsay = \"x\"\nexpect = { spare_v = [2, 1] }\n")
              .starts_with("7: 'spare_v' wants two numbers"));
    CHECK(refusal("[[step]]\nsay = \"x\"\nexpect = { lost_v = [1, 2] }\n")
              .starts_with("7: 'lost_in' and 'lost_v'"));
    CHECK(refusal("[[step]]\nsay = \"x\"\n", "../first.toml")
              .starts_with("4: 'scene' wants the name"));
}

TEST_CASE("a file says what it is and what it is called", "[lesson]") {
    CHECK(file::headingOf("ebbline = 1\nwhat = \"lesson\"\ntitle = \"t\"\n").what == "lesson");
    CHECK(file::headingOf("ebbline = 1\nwhat = \"lesson\"\ntitle = \"t\"\n").title == "t");
    CHECK(file::headingOf(file::embeddedScene()).what == "scene");
    CHECK(file::headingOf("name = \"another program's\"\n").what.empty());
    CHECK(file::headingOf("what [").what.empty());
}
