// SPDX-License-Identifier: MIT
// The desk without its window: what keys do to what is shown.
#include "desks.h"
#include "drawn.h"
#include "legible.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/desk.h"
#include "ebbline/error.h"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <thread>

using namespace ebbline;
using namespace std::chrono_literals;

using namespace ebbline::desks;

namespace {

/// What is pointed out on the plan; "" where nothing is.
std::string marked(const Desk& desk) {
    for (const Group& group : desk::draw(desk, laptop).drawing.groups)
        if (group.role == "mark" && !group.items.empty())
            return group.id;
    return "";
}

} // namespace

TEST_CASE("a handle leads to the very start that the command line finds", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    CHECK(desk->now()->inquiry.examination.start.outcome == Outcome::Trips);
    CHECK(desk->before() == nullptr);
    desk->turn(HandleKind::Area, 1);
    desk->turn(HandleKind::Area, 1);
    desk->turn(HandleKind::Charge, -1);
    settle(*desk);
    const Examination& shown = desk->now()->inquiry.examination;
    const Examination wanted = runs::examineBriefly(desk->installation());
    CHECK(shown.start.outcome == Outcome::Starts);
    CHECK(shown.start.sensed_lowest_v == wanted.start.sensed_lowest_v);
    CHECK(shown.start.waveform.volts == wanted.start.waveform.volts);
    CHECK(desk->installation().findRun("twin")->cores.front().size.value == 4);
    REQUIRE(desk->before() != nullptr);
    desk->putBack();
    settle(*desk);
    CHECK(desk->now()->inquiry.examination.start.outcome == Outcome::Trips);
}

TEST_CASE("what would make it start is told by itself after a while", "[desk]") {
    const auto desk = deskOf("quay-06.toml");
    settle(*desk);
    CHECK_FALSE(says(*desk, "This alone"));
    settleWhole(*desk);
    CHECK(says(*desk, "This alone"));
    desk->hide(true);
    CHECK_FALSE(says(*desk, "This alone"));
}

TEST_CASE("turns of one handle in a row are one change, of another one more", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    const Shown* drawn = desk->now();
    desk->turn(HandleKind::Area, 1);
    settle(*desk);
    const Shown* thicker = desk->now();
    CHECK(desk->before() == drawn);
    desk->turn(HandleKind::Charge, 1);
    CHECK(desk->before() == thicker);
    const Shown* draft = nullptr; // comes while the hand is still on the key
    for (int i = 0; i < 3000 && draft == nullptr; ++i) {
        desk->advance(0);
        draft = desk->now() == thicker ? nullptr : desk->now();
        std::this_thread::sleep_for(10ms);
    }
    REQUIRE(draft != nullptr);
    desk->turn(HandleKind::Charge, 1);
    CHECK(desk->before() == thicker);
    desk->advance(5); // the hand was away
    desk->turn(HandleKind::Charge, -1);
    CHECK(desk->before() != thicker);
}

TEST_CASE("before and after stand side by side in both charts", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->turn(HandleKind::Area, 1);
    settle(*desk);
    const desk::Sheet sheet = desk::draw(*desk, laptop);
    int outlines = 0;
    for (const Group& group : sheet.drawing.groups)
        if (group.role == "beside" && group.meaning == "before" && !group.items.empty())
            ++outlines;
    CHECK(outlines == 2);
    const auto cable = [](const Drawing& drawing) {
        std::size_t shapes = 0;
        for (const Group& group : drawing.groups)
            if (group.role == "run" && group.id == "twin")
                shapes += group.items.size();
        return shapes;
    };
    const Moment alone{desk->now()->inquiry, desk->player().at()};
    CHECK(cable(sheet.drawing) == cable(drawing::page(alone, laptop)) + 2); // its two sides
}

TEST_CASE("in class nothing tells before it is revealed", "[desk]") {
    for (const std::string& name : scenesToLookAt()) {
        CAPTURE(name);
        const Installation scene = drawn::scene(name);
        const auto desk = deskOf(name);
        settle(*desk);
        desk->hide(true);
        desk->point(Point{640, 400});
        desk::Sheet sheet = desk::draw(*desk, laptop);
        const std::string hidden = allTexts(sheet);
        CAPTURE(hidden);
        CHECK(hidden.find("What will this fridge do") != std::string::npos);
        CHECK(marked(*desk).empty());
        CHECK(hidden.find(scene.title) == std::string::npos);
        for (const char* telling : {"Starts",
                                    "not start",
                                    "gave up",
                                    "lose",
                                    "lost",
                                    " V\n",
                                    "cut-out",
                                    "corroded",
                                    "loose",
                                    "tired",
                                    "damaged",
                                    "blown",
                                    "nothing left",
                                    "stall"})
            CHECK(hidden.find(telling) == std::string::npos);
        CHECK(sheet.drawing.time_axes.empty()); // nothing to be scrubbed
        desk->countHands(1);
        desk->countHands(4);
        CHECK(allTexts(desk::draw(*desk, laptop)).find("hands: 14") != std::string::npos);
        desk->reveal();
        const std::string whether = allTexts(desk::draw(*desk, laptop));
        const Start& start = desk->now()->inquiry.examination.start;
        const bool is_ended = start.outcome == Outcome::FuseOpens && start.reached_speed;
        const char* said = start.outcome == Outcome::Starts ? "It starts. Where"
                           : is_ended ? "It starts, and then something ends it."
                                      : "It does not start.";
        CHECK(whether.find(said) != std::string::npos);
        CHECK(whether.find(" V\n") == std::string::npos);
        CHECK(marked(*desk).empty());
        desk->reveal();
        CHECK(allTexts(desk::draw(*desk, laptop)).find(" V\n") == std::string::npos);
        CHECK(marked(*desk) == desk->now()->inquiry.headline.element);
        desk->reveal();
        CHECK(desk->revealed() == Reveal::Everything);
    }
}

TEST_CASE("a faulty installation looks like a sound one to a class", "[desk]") {
    const Models& models = file::embeddedModels();
    std::vector<std::string> names{"quay-02.toml"};
    if (!runs::isSanitised())
        names.insert(names.end(), {"van-01.toml", "cabin-01.toml"});
    for (const std::string& name : names) {
        const Document sound = documentOf(name);
        for (const Part& part : sound.installation.parts) {
            const std::map<std::string, Set> hidden{{"fuse", {part.id + ".blown", true}},
                                                    {"battery", {part.id + ".charge_pct", 20.0}},
                                                    {"thermostat", {part.id + ".closed", false}}};
            const auto fault = hidden.find(std::string(installation::kindOf(part)));
            if (fault == hidden.end())
                continue;
            CAPTURE(name, fault->second.path);
            Document faulty = sound;
            faulty.installation =
                installation::apply(faulty.installation, std::vector<Change>{fault->second});
            std::array<std::unique_ptr<Desk>, 2> desks;
            std::array<Drawing, 2> drawings;
            for (std::size_t i = 0; i < 2; ++i) {
                desks[i] = std::make_unique<Desk>(
                    models, engine::PoolSettings{.workers = 1, .program = EBBLINE_PROGRAM});
                desks[i]->open(i == 0 ? sound : faulty);
                settle(*desks[i]);
                desks[i]->hide(true);
                drawings[i] = desk::draw(*desks[i], laptop).drawing;
            }
            CHECK(drawings[0] == drawings[1]);
            desks[1]->turn(HandleKind::Area, 1); // what is hidden does not turn
            CHECK(desks[1]->installation() == faulty.installation);
        }
    }
}

TEST_CASE("a click on the time chart is a moment of the start", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    const desk::Sheet sheet = desk::draw(*desk, laptop);
    REQUIRE(sheet.drawing.time_axes.size() == 2);
    const TimeAxis& axis = sheet.drawing.time_axes.back(); // the gap chart has no scale of time
    CHECK_FALSE(sheet.drawing.time_axes.front().is_scale);
    REQUIRE(sheet.axisAt(axis.box.middle()).has_value());
    CHECK_FALSE(sheet.axisAt({1, 1}).has_value());
    CHECK(axis.timeAt(axis.box.middle().x) == Approx((axis.from_s + axis.to_s) / 2));
    CHECK(axis.timeAt(1e6) == axis.to_s);
    // At any moment of the axis it stays as it is, up to its very end.
    for (const double share : {0.0, 0.5, 0.95, 1.0}) {
        desk->player().seek(axis.timeAt(axis.box.x + share * axis.box.width));
        const auto axes = desk::draw(*desk, laptop).drawing.time_axes;
        REQUIRE(axes.size() == 2);
        CHECK(axes.back().to_s == Approx(axis.to_s));
    }
}

TEST_CASE("a worker that is killed costs nothing that is seen", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->turn(HandleKind::Length, 1);
    std::this_thread::sleep_for(20ms);
    const auto workers = runs::childrenOf(getpid());
    REQUIRE_FALSE(workers.empty());
    for (const int worker : workers)
        kill(worker, SIGKILL);
    settle(*desk);
    CHECK(desk->obstacle().empty());
}

TEST_CASE("a lesson is walked to its end, each step as it stands in its file", "[desk]") {
    Desk desk(file::embeddedModels(), {.workers = 2, .program = EBBLINE_PROGRAM});
    desk.open(file::readLesson(EBBLINE_SOURCE_DIR "/scenes/lessons/thin-against-thick.toml",
                               file::embeddedModels().catalogues));
    settle(desk);
    REQUIRE(desk.lesson() != nullptr);
    CHECK(desk.revealed() == Reveal::Nothing);
    CHECK(allTexts(desk::draw(desk, laptop)).find("Thin against thick") == std::string::npos);
    for (int i = 0; i < 3; ++i)
        desk.reveal();
    CHECK_FALSE(desk.isAnswered());
    CHECK(allTexts(desk::draw(desk, laptop)).find("1.5 mm² takes about") == std::string::npos);
    desk.reveal();
    CHECK(allTexts(desk::draw(desk, laptop)).find("1.5 mm² takes about") != std::string::npos);
    for (std::size_t step = 1; step < desk.lesson()->steps.size(); ++step) {
        desk.goOn(1);
        settle(desk);
        CHECK(desk.step() == step);
        CHECK(desk.before() != nullptr);
        CHECK(desk.now()->inquiry.examination.start.outcome == Outcome::Starts);
        const desk::Sheet sheet = desk::draw(desk, laptop);
        CHECK(allTexts(sheet).find("step " + std::to_string(step + 1) + " of 4") !=
              std::string::npos);
        for (const std::string& fault : legible::findFaults(sheet.drawing))
            FAIL_CHECK(fault);
    }
    desk.goOn(1);
    CHECK(desk.step() == 3);
    CHECK(desk.installation().findRun("twin")->cores.front().size.value == 2.5);
    desk.goOn(-1);
    CHECK(desk.installation().findRun("twin")->cores.front().size.value == 4);
}

TEST_CASE("files beside the open one are listed, and one of them opened", "[desk]") {
    const Scratch scratch;
    setenv("XDG_STATE_HOME", scratch.path().c_str(), 1);
    Desk desk(file::embeddedModels(), {.workers = 2, .program = EBBLINE_PROGRAM});
    desk.openFile(EBBLINE_SOURCE_DIR "/scenes/quay-02.toml");
    settle(desk);
    desk.listFiles();
    REQUIRE(desk.cover() == Cover::Files);
    CHECK(desk.choices().size() == drawn::sceneNames().size() + 4);  // each once, and the lessons
    CHECK(desk.choices().front().path.filename() == "quay-02.toml"); // opened lately
    const desk::Sheet sheet = desk::draw(desk, laptop);
    CHECK(allTexts(sheet).find("cabin-01.toml") != std::string::npos);
    CHECK(
        std::ranges::any_of(sheet.spots, [](const desk::Spot& spot) { return spot.choice == 1U; }));
    desk.choose(-1);
    CHECK(desk.chosen() == 0);
    for (std::size_t i = 0; i < 1000; ++i)
        desk.choose(1);
    CHECK(desk.choices()[desk.chosen()].is_lesson);
    desk.openChoice(desk.chosen());
    settle(desk);
    CHECK(desk.cover() == Cover::None);
    CHECK(desk.lesson() != nullptr);
    desk.hide(true);
    desk.listFiles(); // titles tell
    CHECK(desk.cover() == Cover::None);
    unsetenv("XDG_STATE_HOME");
}

TEST_CASE("what is written to the open file is shown, and what is wrong in it is said", "[desk]") {
    const Scratch scratch;
    setenv("XDG_STATE_HOME", scratch.path().c_str(), 1);
    const auto path = scratch.path() / "boat.toml";
    std::string text = documentOf("quay-02.toml").text;
    const auto write = [&](const std::string& what) {
        std::ofstream(path, std::ios::binary) << what;
        std::filesystem::last_write_time(path,
                                         std::filesystem::last_write_time(path) + 1h); // at once
    };
    write(text);
    Desk desk(file::embeddedModels(), {.workers = 2, .program = EBBLINE_PROGRAM});
    desk.openFile(path);
    settle(desk);
    CHECK(desk.now()->inquiry.examination.start.outcome == Outcome::Trips);
    const std::string thin = "area_mm2 = 1.5";
    REQUIRE(text.find(thin) != std::string::npos);
    std::string thick = text;
    thick.replace(thick.find(thin), thin.size(), "area_mm2 = 6");
    std::filesystem::last_write_time(path, std::filesystem::last_write_time(path) - 2h);
    write(thick);
    std::filesystem::last_write_time(path, std::filesystem::last_write_time(path) + 3h);
    desk.advance(1.1);
    settle(desk);
    CHECK(desk.now()->inquiry.examination.start.outcome == Outcome::Starts);
    write("ebbline = 1\nnonsense");
    std::filesystem::last_write_time(path, std::filesystem::last_write_time(path) + 5h);
    desk.advance(1.1);
    CHECK(desk.obstacle().find("boat.toml:2") != std::string::npos);
    CHECK(desk.now() != nullptr); // what was there stays
    unsetenv("XDG_STATE_HOME");
}

TEST_CASE("what lies under the pointer is named with its figures now", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->player().seekWorst();
    const desk::Sheet bare = desk::draw(*desk, laptop);
    for (const Group& group : bare.drawing.groups)
        if (group.role == "run" && group.id == "twin")
            for (const auto& item : group.items)
                if (const auto* shape = std::get_if<Shape>(&item); shape != nullptr) {
                    desk->point(shape->points.front());
                    break;
                }
    const std::string texts = allTexts(desk::draw(*desk, laptop));
    CAPTURE(texts);
    CHECK(texts.find("V lost") != std::string::npos);
    CHECK(texts.find("now, at ") != std::string::npos);
}
