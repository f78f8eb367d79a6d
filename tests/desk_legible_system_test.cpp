// SPDX-License-Identifier: MIT
// Everything that the window shows can be read: every scene and lesson, at the sizes of common
// screens, larger and smaller, on both papers and in both languages.
#include "desks.h"
#include "legible.h"
#include "reading_as.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/desk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace ebbline;
using namespace ebbline::desks;

namespace {

constexpr double in_a_room = 7;     // WCAG 2.2, 1.4.6
constexpr double at_a_screen = 4.5; // the same, 1.4.3

/// Of screens in pixels and a scale; where the scale leaves too little, the window lowers it.
std::vector<View> viewsOf(const std::vector<View>& screens, const std::vector<double>& scales) {
    std::vector<View> views;
    for (const View& screen : screens)
        for (const double scale : scales) {
            const double zoom = std::min(
                {scale, screen.width / desk::least_width, screen.height / desk::least_height});
            const View view{screen.width / zoom, screen.height / zoom};
            if (std::ranges::none_of(views, [&](const View& other) {
                    return other.width == view.width && other.height == view.height;
                }))
                views.push_back(view);
        }
    return views;
}

std::vector<View> screens() {
    if (runs::isSanitised())
        return {{desk::least_width, desk::least_height}, {1280, 720}};
    auto all = viewsOf({{1280, 720}, {1920, 1080}, {3840, 2160}}, {1, 1.5, 2});
    all.push_back({desk::least_width, desk::least_height});
    return all;
}

/// The role of what lies over the pictures; "" where nothing does.
std::string roleOver(const Drawing& drawing) {
    for (const char* role : {"cover", "hover", "band"})
        if (std::ranges::find(drawing.groups, role, &Group::role) != drawing.groups.end())
            return role;
    return "";
}

/// Of one view on both papers, which differ in their colours alone.
void checkView(const Desk& desk, View view, double least_contrast) {
    CAPTURE(view.width, view.height);
    Drawing dark = desk::draw(desk, {view.width, view.height, Paper::Dark}).drawing;
    const Drawing light = desk::draw(desk, view).drawing;
    const std::string over = roleOver(light);
    for (const std::string& fault :
         over.empty() ? legible::findFaults(light) : legible::findFaultsOver(light, over))
        FAIL_CHECK(fault);
    for (const Label& label : legible::labelsOf(light))
        if (label.text.ends_with("…"))
            FAIL_CHECK("'" + label.text + "' has lost its end");
    CHECK(legible::leastTextContrast(light) >= least_contrast);
    CHECK(legible::leastTextContrast(dark) >= least_contrast);
    dark.paper = Paper::Light;
    CHECK(dark == light);
}

void checkAll(const Desk& desk,
              const std::vector<View>& views,
              double least_contrast = at_a_screen) {
    for (const View& view : views)
        checkView(desk, view, least_contrast);
}

/// The pointer rests on several things, one after the other.
void checkHovers(Desk& desk, const std::vector<View>& views) {
    constexpr std::size_t most = 6;
    for (const View& view : views) {
        desk.point(std::nullopt);
        std::vector<Point> places;
        const Drawing drawing = desk::draw(desk, view).drawing;
        for (const Group& group : drawing.groups)
            if ((group.role == "part" || group.role == "run" || group.role == "joint") &&
                !group.items.empty() && std::holds_alternative<Shape>(group.items.front()))
                places.push_back(std::get<Shape>(group.items.front()).points.front());
        const std::size_t step = places.size() / most + 1;
        for (std::size_t i = 0; i < places.size(); i += step) {
            CAPTURE(places[i].x, places[i].y);
            desk.point(places[i]);
            checkView(desk, view, at_a_screen);
        }
    }
    desk.point(std::nullopt);
}

void checkClass(Desk& desk, const std::vector<View>& views) {
    desk.hide(true);
    desk.countHands(1);
    desk.countHands(4);
    while (desk.revealed() != Reveal::Everything) {
        checkAll(desk, views);
        desk.reveal();
    }
}

void checkCovers(Desk& desk, const std::vector<View>& views) {
    for (const Cover cover : {Cover::Help, Cover::Words}) {
        desk.setCover(cover);
        checkAll(desk, views);
    }
    desk.listFiles();
    checkAll(desk, views);
    desk.setCover(Cover::None);
}

/// A meter on any two terminals, and a stretch that is played round.
void checkMeter(Desk& desk, const std::vector<View>& views) {
    desk.toggleMeter();
    desk.player().markEnd();
    const auto terminals = desk::draw(desk, views.front()).drawing.terminals;
    desk.leads()->plus = terminals.front().terminal;
    checkAll(desk, views);
    desk.dismiss();
    desk.toggleMeter();
}

void checkRoom(Desk& desk) {
    desk.setRoom(true);
    checkAll(desk, {{1024, 768}, {1280, 800}}, in_a_room);
    desk.setRoom(false);
}

void checkScene(const std::string& name) {
    const auto desk = emptyDesk();
    desk->openFile(EBBLINE_SOURCE_DIR "/scenes/" + name);
    settle(*desk);
    const std::vector<View> views = screens();
    checkAll(*desk, views);
    settleWhole(*desk); // what would help stands there as well
    checkAll(*desk, views);
    checkHovers(*desk, views);
    checkCovers(*desk, views);
    checkMeter(*desk, views);
    checkRoom(*desk);
    checkClass(*desk, views);
    desk->turn(HandleKind::Area, 1); // which has cards and charts say more
    settle(*desk);
    checkAll(*desk, views);
}

/// Each step as it comes, and at every stage to its answer.
void checkLesson(const std::filesystem::path& path) {
    const auto desk = emptyDesk();
    desk->openFile(path);
    const std::vector<View> views = screens();
    for (std::size_t step = 0; step < desk->lesson()->steps.size(); ++step, desk->goOn(1)) {
        CAPTURE(step);
        settle(*desk);
        for (bool goes_on = true; goes_on;) {
            CAPTURE(desk->revealed(), desk->isAnswered());
            checkAll(*desk, views);
            goes_on = !desk->isAnswered();
            desk->reveal();
        }
    }
}

/// In which language, and without the files that were opened lately here.
class Visit {
public:
    explicit Visit(const std::string& language) : m_reader({.language = language}) {
        setenv("XDG_STATE_HOME", m_scratch.path().c_str(), 1);
    }
    ~Visit() { unsetenv("XDG_STATE_HOME"); }
    Visit(const Visit&) = delete;
    Visit& operator=(const Visit&) = delete;

private:
    Scratch m_scratch;
    ReadingAs m_reader;
};

} // namespace

TEST_CASE("every sheet of every scene can be read", "[desk][legible]") {
    const std::string language = GENERATE("en", "de");
    const Visit visit(language);
    for (const std::string& name : scenesToLookAt()) {
        CAPTURE(language, name);
        checkScene(name);
    }
}

TEST_CASE("every step of every lesson can be read", "[desk][legible]") {
    const std::string language = GENERATE("en", "de");
    const Visit visit(language);
    for (const auto& entry :
         std::filesystem::directory_iterator(EBBLINE_SOURCE_DIR "/scenes/lessons")) {
        CAPTURE(language, entry.path().filename().string());
        checkLesson(entry.path());
        if (runs::isSanitised())
            break;
    }
}

TEST_CASE("why a file cannot be opened can be read", "[desk][legible]") {
    const std::string language = GENERATE("en", "de");
    const Visit visit(language);
    const Scratch scratch;
    const auto path = scratch.path() / "boat.toml";
    const auto write = [&](const std::string& text, int hours) {
        std::ofstream(path, std::ios::binary) << text;
        std::filesystem::last_write_time(
            path, std::filesystem::file_time_type::clock::now() + std::chrono::hours(hours));
    };
    write(documentOf("quay-02.toml").text, 0);
    const auto desk = emptyDesk();
    desk->openFile(path);
    settle(*desk);
    write("ebbline = 1\nnonsense", 1);
    desk->advance(1.1);
    REQUIRE_FALSE(desk->obstacle().empty());
    checkAll(*desk, screens());
}
