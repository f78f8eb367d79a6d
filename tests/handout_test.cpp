// SPDX-License-Identifier: MIT
// The sheet for a class: its numbers are the whole loop, and nothing on it tells the answer.
#include "drawn.h"
#include "hostile.h"
#include "legible.h"
#include "reading_as.h"

#include "ebbline/handout.h"
#include "ebbline/numbered_plan.h"
#include "ebbline/seen.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace ebbline;
using Catch::Matchers::Contains;

namespace {

const Catalogues& catalogues() {
    static const Models models = file::embeddedModels();
    return models.catalogues;
}

std::string sheetOf(const Installation& installation, SheetSize paper = SheetSize::A4) {
    return report::writeClassSheet(
        installation,
        catalogues(),
        {.paper = paper, .version = "7.7", .scene = "telling.toml", .changes = {"telling"}});
}

Network seenNetwork(const std::string& scene) {
    return network::build(installation::asSeen(drawn::scene(scene)), catalogues());
}

/// Everything wrong that no eye sees, wherever it can be, and words that tell of it.
Installation spoilt(Installation installation) {
    installation.title = "the crimp is bad";
    installation.note = "the crimp is bad";
    const auto spoilJoints = [](auto& thing) {
        thing.name = "the crimp is bad";
        thing.note = "the crimp is bad";
        double mohm = 90;
        for (const installation::NamedJoint& joint : installation::jointsOf(thing)) {
            joint.joint->condition = "corroded";
            joint.joint->resistance_mohm = mohm += 7;
            joint.joint->film_mohm = 40;
            joint.joint->opens_per_min = 10;
        }
    };
    for (Part& part : installation.parts) {
        spoilJoints(part);
        if (auto* fuse = std::get_if<Fuse>(&part.body)) {
            fuse->blown = true;
            fuse->holder_mohm = 300;
        } else if (auto* battery = std::get_if<Battery>(&part.body)) {
            battery->charge_pct = 3;
            battery->dead_cells = 1;
        } else if (auto* unit = std::get_if<Controller>(&part.body)) {
            unit->shorted_pct = 30;
            unit->pressure_pct = 100;
        }
    }
    for (Run& run : installation.runs) {
        spoilJoints(run);
        run.broken_pct = 80;
    }
    return installation;
}

} // namespace

TEST_CASE("numbered places are the whole supply loop, once", "[handout]") {
    for (const std::string& name : drawn::sceneNames()) {
        INFO(name);
        const Network network = seenNetwork(name);
        const std::vector<MeterPlace> places = network::findPlaces(network);
        REQUIRE(network.loop);
        std::vector<Step> walked;
        for (const MeterPlace& place : places)
            walked.insert(walked.end(), place.steps.begin(), place.steps.end());
        std::vector<Step> loop{{network.loop->battery, +1}};
        loop.insert(loop.end(), network.loop->out.begin(), network.loop->out.end());
        loop.insert(loop.end(), network.loop->back.begin(), network.loop->back.end());
        CHECK(walked == loop);
        CHECK(places.size() >= 6);
        CHECK(places.size() <= 24);
    }
}

TEST_CASE("a joint alone, joints with their device and conductors are places of their own",
          "[handout]") {
    const Network network = seenNetwork("quay-07.toml");
    std::vector<std::string> said;
    for (const MeterPlace& place : network::findPlaces(network))
        said.push_back(place.owner + " " + std::to_string(place.steps.size()));
    CHECK(said == std::vector<std::string>{"house 1",
                                           "house 1",
                                           "house-plus 1",
                                           "main-switch 3",
                                           "feed 1",
                                           "main-fuse 3",
                                           "twin 1",
                                           "fridge 1",
                                           "fridge 1",
                                           "twin 1",
                                           "house 1"});
}

TEST_CASE("every number stands on the plan, legibly", "[handout]") {
    for (const std::string& name : drawn::sceneNames())
        for (const View view : {View{820, 344}, View{760, 360}}) {
            INFO(name << " " << view.width);
            const Network network = seenNetwork(name);
            const std::vector<MeterPlace> places = network::findPlaces(network);
            const Drawing plan = drawing::numberedPlan(network, places, view);
            std::set<std::string> numbers;
            for (const Label& label : legible::labelsOf(plan, "numbers"))
                numbers.insert(label.text);
            CHECK(numbers.size() == places.size());
            for (std::size_t i = 1; i <= places.size(); ++i)
                CHECK(numbers.contains(std::to_string(i)));
            for (const std::string& fault : legible::findFaults(plan))
                FAIL_CHECK(fault);
        }
}

TEST_CASE("a class's sheet is the same whatever is wrong", "[handout]") {
    for (const char* language : {"en", "de"}) {
        const ReadingAs reader({.language = language});
        for (const std::string& name : drawn::sceneNames()) {
            INFO(name << " " << language);
            const Installation installation = drawn::scene(name);
            const std::string sheet = sheetOf(installation);
            CHECK(sheet == sheetOf(spoilt(installation)));
            CHECK(sheet == sheetOf(installation::asSeen(installation)));
            CHECK_THAT(sheet, !Contains(installation.title));
            CHECK_THAT(sheet, !Contains("telling") && !Contains("data-id"));
            for (const Part& part : installation.parts)
                CHECK((part.name.empty() || sheet.find(part.name) == std::string::npos));
        }
    }
}

TEST_CASE("a bad crimp and the same one remade give one sheet", "[handout]") {
    const Installation bad = drawn::scene("quay-07.toml");
    Installation remade = bad;
    drawn::runOf(remade, "twin").cores[1].joint_from = {.kind = "ring"};
    remade.title = "Galley fridge of the Marguerite";
    REQUIRE_FALSE(remade == bad);
    for (const SheetSize paper : {SheetSize::A4, SheetSize::Letter})
        CHECK(sheetOf(bad, paper) == sheetOf(remade, paper));
    // What an eye does see is there: otherwise the comparison could not fail.
    Installation thin = bad;
    for (Core& core : drawn::runOf(thin, "twin").cores)
        core.size.value = 2.5;
    CHECK(sheetOf(bad) != sheetOf(thin));
    CHECK_THAT(sheetOf(thin), Contains("2.5\u00a0mm²"));
}

TEST_CASE("boxes of a class's sheet are empty and its policy lets nothing in", "[handout]") {
    const std::string sheet = sheetOf(drawn::scene("quay-07.toml"));
    CHECK(sheet == sheetOf(drawn::scene("quay-07.toml")));
    std::size_t boxes = 0;
    for (std::size_t at = sheet.find("<span class=\"box"); at != std::string::npos;
         at = sheet.find("<span class=\"box", at + 1)) {
        CHECK(sheet.compare(sheet.find('>', at), 8, "></span>") == 0);
        ++boxes;
    }
    CHECK(boxes == 11 + 3 + 2 + 2 + 3 + 1);
    CHECK_THAT(sheet,
               Contains("default-src 'none'") && !Contains("<script") && !Contains("style=\""));
    CHECK_THAT(sheet, !Contains("✕") && !Contains("class=\"answers\""));
}
