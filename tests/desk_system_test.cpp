// SPDX-License-Identifier: MIT
// The desk without its window: what keys do to what is shown.
#include "drawn.h"
#include "legible.h"
#include "runs.h"

#include "ebbline/desk.h"
#include "ebbline/error.h"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <thread>

using namespace ebbline;
using namespace std::chrono_literals;

namespace {

Document documentOf(const std::string& name) {
    return file::read(EBBLINE_SOURCE_DIR "/scenes/" + name, file::embeddedModels().catalogues);
}

std::unique_ptr<Desk> deskOf(const std::string& name) {
    auto desk = std::make_unique<Desk>(
        file::embeddedModels(), engine::PoolSettings{.workers = 2, .program = EBBLINE_PROGRAM});
    desk->open(documentOf(name));
    return desk;
}

/// Until the final run of what stands there has come.
void settle(Desk& desk) {
    for (int i = 0; i < 12000; ++i) {
        desk.advance(0.01);
        if (!desk.isBusy() && !desk.isOld() && desk.now() != nullptr &&
            desk.now()->inquiry.examination.accuracy == Accuracy::Final)
            return;
        std::this_thread::sleep_for(10ms);
    }
    FAIL("no final run within two minutes");
}

std::string allTexts(const desk::Sheet& sheet) {
    std::string all;
    for (const Label& label : legible::labelsOf(sheet.drawing))
        all += legible::plain(label.text) + "\n";
    return all + sheet.drawing.title + "\n" + sheet.drawing.meaning;
}

const View laptop{1280, 800};

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
    desk->turn(HandleKind::Charge, 1);
    CHECK(desk->before() == thicker);
}

TEST_CASE("before and after stand side by side in both charts", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->turn(HandleKind::Area, 1);
    settle(*desk);
    const desk::Sheet sheet = desk::draw(*desk, laptop);
    int outlines = 0;
    for (const Group& group : sheet.drawing.groups)
        if (group.role == "outline" && group.meaning == "before" && !group.items.empty())
            ++outlines;
    CHECK(outlines == 2);
}

TEST_CASE("in class nothing tells before it is revealed", "[desk]") {
    for (const std::string& name : drawn::sceneNames()) {
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
        const bool starts = desk->now()->inquiry.examination.start.outcome == Outcome::Starts;
        CHECK((whether.find("It starts.") != std::string::npos) == starts);
        CHECK((whether.find("It does not start.") != std::string::npos) != starts);
        CHECK(whether.find(" V\n") == std::string::npos);
        desk->reveal();
        CHECK(allTexts(desk::draw(*desk, laptop)).find(" V\n") == std::string::npos);
        desk->reveal();
        CHECK(desk->revealed() == Reveal::Everything);
    }
}

TEST_CASE("every sheet of every scene can be read", "[desk]") {
    std::vector<View> views{{1280, 720}, {1920, 1080}, {3840, 2160, Paper::Dark}};
    for (const std::string& name : drawn::sceneNames()) {
        const auto desk = deskOf(name);
        settle(*desk);
        for (const bool is_turned : {false, true}) {
            if (is_turned) {
                desk->turn(HandleKind::Area, 1);
                settle(*desk);
            }
            for (const View& view : views) {
                CAPTURE(name, is_turned, view.width);
                const desk::Sheet sheet = desk::draw(*desk, view);
                for (const std::string& fault : legible::findFaults(sheet.drawing))
                    FAIL_CHECK(fault);
                CHECK(legible::leastTextContrast(sheet.drawing) >= 4.5);
            }
        }
        desk->hide(true);
        for (const View& view : views) {
            CAPTURE(name, view.width);
            for (const std::string& fault : legible::findFaults(desk::draw(*desk, view).drawing))
                FAIL_CHECK(fault);
        }
    }
}

TEST_CASE("a click on the time chart is a moment of the start", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    const desk::Sheet sheet = desk::draw(*desk, laptop);
    REQUIRE(sheet.drawing.time_axes.size() == 1);
    const TimeAxis& axis = sheet.drawing.time_axes.front();
    const auto at_s = sheet.timeAt(axis.box.middle());
    REQUIRE(at_s.has_value());
    CHECK(at_s.value() == Approx((axis.from_s + axis.to_s) / 2));
    CHECK_FALSE(sheet.timeAt({1, 1}).has_value());
    desk->player().seek(at_s.value());
    CHECK(desk->player().at() == at_s.value());
}

TEST_CASE("a worker that is killed costs nothing that is seen", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->turn(HandleKind::Length, 1);
    std::this_thread::sleep_for(20ms);
    for (const int worker : runs::childrenOf(getpid()))
        kill(worker, SIGKILL);
    settle(*desk);
    CHECK(desk->obstacle().empty());
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
