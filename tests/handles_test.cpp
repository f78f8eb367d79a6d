// SPDX-License-Identifier: MIT
// What what-if keys go through.
#include "drawn.h"

#include "ebbline/file.h"
#include "ebbline/handles.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace ebbline;

namespace {

const Catalogues& catalogues() {
    return file::embeddedModels().catalogues;
}

Handle handleOf(const Installation& installation, HandleKind kind) {
    const auto handles = desk::findHandles(installation, catalogues());
    const auto found = std::ranges::find(handles, kind, &Handle::kind);
    REQUIRE(found != handles.end());
    return *found;
}

} // namespace

TEST_CASE("areas are those one can buy, the drawn one among them", "[handles]") {
    Handle area = handleOf(drawn::loop({.area_mm2 = 2.5}), HandleKind::Area);
    CHECK(area.rungs[area.at].text == "2.5 mm²");
    REQUIRE(area.turn(1));
    CHECK(area.rungs[area.at].text == "4 mm²");
    REQUIRE(area.turn(-1));
    REQUIRE(area.turn(-1));
    CHECK(area.rungs[area.at].text == "1.5 mm²");
    const auto& sizes = catalogues().conductors.at("class-5-tinned");
    CHECK(area.rungs.size() == sizes.size());
}

TEST_CASE("a handle stops at the ends of its row", "[handles]") {
    Handle charge = handleOf(drawn::loop({.charge_pct = 100}), HandleKind::Charge);
    CHECK_FALSE(charge.turn(1));
    while (charge.turn(-1)) {
    }
    CHECK(charge.at == 0);
    CHECK(charge.isTurned());
}

TEST_CASE("a value between the steps of its row has a place of its own", "[handles]") {
    const Handle charge = handleOf(drawn::loop({.charge_pct = 73}), HandleKind::Charge);
    CHECK(charge.rungs[charge.drawn].text == "73 %");
    CHECK(charge.rungs[charge.drawn].changes.empty());
    CHECK(charge.rungs[charge.drawn - 1].text == "70 %");
    CHECK(charge.rungs[charge.drawn + 1].text == "80 %");
}

TEST_CASE("every rung of every scene can be applied and makes a difference", "[handles]") {
    for (const std::string& name : drawn::sceneNames()) {
        const Installation scene = drawn::scene(name);
        for (const Handle& handle : desk::findHandles(scene, catalogues())) {
            CAPTURE(name, desk::nameOf(handle.kind), handle.on);
            REQUIRE(handle.rungs.size() > 1);
            CHECK(handle.at == handle.drawn);
            std::set<std::string> texts;
            for (std::size_t i = 0; i < handle.rungs.size(); ++i) {
                const Rung& rung = handle.rungs[i];
                CAPTURE(rung.text);
                CHECK(texts.insert(rung.text).second);
                const Installation changed = installation::apply(scene, rung.changes);
                CHECK((changed == scene) == (i == handle.drawn));
            }
        }
    }
}

TEST_CASE("several handles change several things at once", "[handles]") {
    const Installation scene = drawn::loop({.area_mm2 = 2.5, .charge_pct = 50});
    auto handles = desk::findHandles(scene, catalogues());
    for (Handle& handle : handles)
        if (handle.kind == HandleKind::Area || handle.kind == HandleKind::Charge)
            REQUIRE(handle.turn(1));
    const Installation changed = installation::apply(scene, desk::changesOf(handles));
    for (const char* run : {"third", "return"})
        CHECK(changed.findRun(run)->cores.front().size.value == 4);
    CHECK(std::get<Battery>(changed.findPart("house")->body).charge_pct == 60);
}
