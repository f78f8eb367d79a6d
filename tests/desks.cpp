// SPDX-License-Identifier: MIT
// Desks with the starts of real scenes on them, for tests.
#include "desks.h"

#include "drawn.h"
#include "legible.h"
#include "runs.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <functional>
#include <thread>

namespace ebbline::desks {

std::unique_ptr<Desk> emptyDesk() {
    return std::make_unique<Desk>(file::embeddedModels(),
                                  engine::PoolSettings{.workers = 2, .program = EBBLINE_PROGRAM});
}

Document documentOf(const std::string& scene) {
    return file::read(EBBLINE_SOURCE_DIR "/scenes/" + scene, file::embeddedModels().catalogues);
}

std::unique_ptr<Desk> deskOf(const std::string& scene) {
    auto desk = emptyDesk();
    desk->open(documentOf(scene));
    return desk;
}

namespace {

void await(Desk& desk, const std::function<bool()>& is_there) {
    using namespace std::chrono_literals;
    for (int i = 0; i < 12000; ++i) {
        desk.advance(0.01);
        if (desk.now() != nullptr && !desk.isOld() && is_there())
            return;
        std::this_thread::sleep_for(10ms);
    }
    FAIL("not within two minutes");
}

} // namespace

void settle(Desk& desk) {
    await(desk, [&] {
        return !desk.isBusy() && desk.now()->inquiry.examination.accuracy == Accuracy::Final;
    });
}

void settleWhole(Desk& desk) {
    await(desk, [&] { return desk.now()->is_whole; });
}

std::string allTexts(const desk::Sheet& sheet) {
    std::string all;
    for (const Label& label : legible::labelsOf(sheet.drawing))
        all += legible::plain(label.text) + "\n";
    return all + sheet.drawing.title + "\n" + sheet.drawing.meaning;
}

bool says(const Desk& desk, const std::string& text) {
    return allTexts(desk::draw(desk, laptop)).find(text) != std::string::npos;
}

std::vector<std::string> scenesToLookAt() {
    return runs::isSanitised()
               ? std::vector<std::string>{"quay-02.toml", "cabin-02.toml", "van-03.toml"}
               : drawn::sceneNames();
}

} // namespace ebbline::desks
