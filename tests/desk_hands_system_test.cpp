// SPDX-License-Identifier: MIT
// What hands take on the desk: meter, enlargement, another scene laid under, first steps.
#include "desks.h"
#include "drawn.h"
#include "legible.h"
#include "runs.h"
#include "scratch.h"

#include "ebbline/whys.h"
#include "ebbline/words.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cstdlib>
#include <set>
#include <thread>

using namespace ebbline;
using namespace std::chrono_literals;
using desks::deskOf;
using desks::laptop;
using desks::says;
using desks::settle;

namespace {

void checkLegible(const Desk& desk, const View& view) {
    for (const std::string& fault : legible::findFaults(desk::draw(desk, view).drawing))
        FAIL_CHECK(fault);
}

} // namespace

TEST_CASE("who begins has one handle until it has made the fridge start", "[desk]") {
    const auto desk = desks::emptyDesk();
    desk->welcome(desks::documentOf("quay-02.toml"));
    settle(*desk);
    CHECK(desk->greeting() == Welcome::OneHandle);
    CHECK(says(*desk, "This fridge has just given up"));
    CHECK_FALSE(says(*desk, "Run length"));
    CHECK(desk->player().at() == desk->player().timeline().worst_s);
    desk->turn(HandleKind::Charge, 1);
    CHECK_FALSE(desk->isBusy()); // the other handles rest
    checkLegible(*desk, {desk::least_width, desk::least_height});
    desk->turn(HandleKind::Area, 1);
    desk->turn(HandleKind::Area, 1);
    settle(*desk);
    CHECK(desk->greeting() == Welcome::Started);
    CHECK(says(*desk, "It starts"));
    checkLegible(*desk, {desk::least_width, desk::least_height});
    desk->turn(HandleKind::Area, -1);
    desk->turn(HandleKind::Area, -1);
    settle(*desk);
    CHECK(desk->greeting() == Welcome::OneHandle); // it has given up again
    desk->turn(HandleKind::Area, 1);
    settle(*desk);
    desk->reveal();
    CHECK(desk->greeting() == Welcome::Over);
    CHECK(says(*desk, "Run length"));
}

TEST_CASE("a meter stands in a line of its own and in the time chart", "[desk]") {
    for (const char* name : {"quay-02.toml", "van-02.toml", "van-04.toml"}) {
        CAPTURE(name);
        const auto desk = deskOf(name);
        settle(*desk);
        desk->toggleMeter();
        REQUIRE(desk->leads());
        CHECK(says(*desk, "V now, lowest"));
        for (const View view :
             {laptop, View{desk::least_width, desk::least_height}, View{1920, 1080, Paper::Dark}})
            checkLegible(*desk, view);
        const desk::Sheet sheet = desk::draw(*desk, laptop);
        std::set<std::string> parts;
        for (const TerminalPlace& place : sheet.drawing.terminals) {
            CAPTURE(place.terminal.text());
            parts.insert(place.terminal.part);
            CHECK(sheet.terminalAt(place.at).has_value());
            desk->leads()->plus = place.terminal;
            const bool reads = says(*desk, "V now, lowest") || says(*desk, "nothing to read");
            CHECK(reads);
        }
        CHECK(parts.contains("fridge"));
        CHECK_FALSE(sheet.terminalAt({1, 1}).has_value());
        desk->hide(true);
        CHECK_FALSE(desk->leads());
        desk->toggleMeter();
        CHECK_FALSE(desk->leads()); // it would tell
    }
}

TEST_CASE("leads are put one after the other", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->putLead({"house", "plus"});
    CHECK_FALSE(desk->leads());
    desk->toggleMeter();
    desk->putLead({"house", "plus"});
    desk->putLead({"house", "minus"});
    CHECK(*desk->leads() == Leads{{"house", "plus"}, {"house", "minus"}, false});
    desk->putLead({"fridge", "plus"});
    CHECK(desk->leads()->plus == Terminal{"fridge", "plus"});
    CHECK(says(*desk, "Fridge plus against House battery minus"));
}

TEST_CASE("enlarged, nothing covers the foot, and what is left is whole", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    const desk::Sheet all = desk::draw(*desk, laptop);
    desk->magnifier().zoom(3, {300, 250}, all.pictures);
    const desk::Sheet part = desk::draw(*desk, laptop);
    CHECK(part.spots.size() == all.spots.size());
    CHECK(legible::labelsOf(part.drawing).size() < legible::labelsOf(all.drawing).size());
    for (const Label& label : legible::labelsOf(part.drawing)) {
        CAPTURE(label.text);
        const bool is_within = part.pictures.contains(label.box);
        const bool is_below = label.box.y >= part.pictures.bottom() - 1e-6;
        CHECK((is_within || is_below));
    }
    checkLegible(*desk, laptop);
    desk->dismiss();
    CHECK(desk::draw(*desk, laptop).drawing == all.drawing);
}

TEST_CASE("another scene lies under the open one in all three pictures", "[desk]") {
    const Scratch scratch;
    setenv("XDG_STATE_HOME", scratch.path().c_str(), 1);
    const auto desk = desks::emptyDesk();
    desk->openFile(EBBLINE_SOURCE_DIR "/scenes/quay-02.toml");
    settle(*desk);
    desk->listFiles();
    const auto other = std::ranges::find_if(desk->choices(), [](const Choice& choice) {
        return choice.path.filename() == "quay-03.toml";
    });
    REQUIRE(other != desk->choices().end());
    const std::string title = other->title;
    desk->layUnder(static_cast<std::size_t>(other - desk->choices().begin()));
    CHECK(desk->cover() == Cover::None);
    for (int i = 0; i < 6000 && !desk->under(); ++i) {
        desk->advance(0.01);
        std::this_thread::sleep_for(10ms);
    }
    REQUIRE(desk->under());
    const desk::Sheet sheet = desk::draw(*desk, laptop);
    std::set<std::string> where;
    for (const Group& group : sheet.drawing.groups)
        if (group.role == "beside" && !group.items.empty())
            where.insert(group.meaning);
    CHECK(where.contains(desk->under()->name));
    CHECK(title.starts_with(desk->under()->name.substr(0, 8)));
    CHECK(desk->now()->inquiry.examination.start.outcome == Outcome::Trips);
    CHECK(desk->under()->inquiry->examination.start.outcome == Outcome::Starts);
    desk->turn(HandleKind::Area, 1);
    settle(*desk);
    REQUIRE(desk->before() != nullptr);
    checkLegible(*desk, laptop); // two outlines now
    checkLegible(*desk, {desk::least_width, desk::least_height});
    desk->takeUnderAway();
    CHECK_FALSE(desk->under());
}

TEST_CASE("paper for a class is written beside the open file, as the handles stand", "[desk]") {
    const Scratch scratch;
    setenv("XDG_STATE_HOME", scratch.path().c_str(), 1);
    const auto scene = scratch.path() / "case.toml";
    std::filesystem::copy_file(EBBLINE_SOURCE_DIR "/scenes/quay-02.toml", scene);
    const auto desk = desks::emptyDesk();
    desk->openFile(scene);
    desk->turn(HandleKind::Length, 1);
    settle(*desk);
    desk->hide(true);
    desk->writePaper();
    CHECK(desk->notice().empty()); // its name would tell
    desk->hide(false);
    desk->writePaper();
    for (int i = 0; i < 12000 && desk->notice().find("Written") == std::string::npos; ++i) {
        desk->advance(0);
        std::this_thread::sleep_for(10ms);
    }
    CHECK(desk->notice().find("case-class.html") != std::string::npos);
    const std::string title = desk->document().installation.title;
    const std::string sheet = file::readBytes(scratch.path() / "case-class.html");
    CHECK(sheet.find(title) == std::string::npos);
    const std::string answers = file::readBytes(scratch.path() / "case-answers.html");
    CHECK(answers.find("Run length, one way") != std::string::npos); // the change is told
    CHECK(says(*desk, "Written for paper"));
    desk->advance(11);
    CHECK(desk->notice().empty());
}

TEST_CASE("what was put there last goes first", "[desk]") {
    const auto desk = deskOf("quay-02.toml");
    settle(*desk);
    desk->toggleMeter();
    desk->player().mark(Stretch{0.1, 0.4});
    desk->magnifier().zoom(2, {300, 300}, {0, 0, 1280, 700});
    desk->setCover(Cover::Words);
    desk->dismiss();
    CHECK(desk->cover() == Cover::None);
    CHECK(desk->magnifier().isOn());
    desk->dismiss();
    CHECK_FALSE(desk->magnifier().isOn());
    CHECK(desk->player().loop());
    desk->dismiss();
    CHECK_FALSE(desk->player().loop());
    CHECK(desk->leads());
    desk->dismiss();
    CHECK_FALSE(desk->leads());
}

TEST_CASE("every why is of a word that stands on some sheet", "[desk]") {
    if (runs::isSanitised())
        return; // every scene, for words alone
    std::string all;
    for (const std::string& name : drawn::sceneNames()) {
        const auto desk = deskOf(name);
        settle(*desk);
        for (const double share : {0.0, 0.5, 1.0}) {
            const auto& moments = desk->player().timeline().moments_s;
            desk->player().seek(std::lerp(moments.front(), moments.back(), share));
            all += desks::allTexts(desk::draw(*desk, laptop));
        }
        desk->turn(HandleKind::Area, 1);
        settle(*desk);
        all += desks::allTexts(desk::draw(*desk, laptop));
    }
    all += words("draft; the final run follows"); // comes and goes
    for (const Why& why : desk::allWhys()) {
        CAPTURE(why.spoken);
        const auto spoken = desk::wordsOf(why);
        bool is_found = false;
        for (std::size_t from = 0; !is_found && from < all.size();) {
            const std::size_t end = std::min(all.find('\n', from), all.size());
            for (const Why& found : desk::whysIn(all.substr(from, end - from)))
                is_found = is_found || found.reason == why.reason;
            from = end + 1;
        }
        CHECK(is_found);
    }
}
