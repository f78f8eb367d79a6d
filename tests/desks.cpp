// SPDX-License-Identifier: MIT
// Desks on scenes of the repository.
#include "desks.h"

#include "legible.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <thread>

namespace ebbline::desks {

using namespace std::chrono_literals;

Document documentOf(const std::string& name) {
    return file::read(EBBLINE_SOURCE_DIR "/scenes/" + name, file::embeddedModels().catalogues);
}

std::unique_ptr<Desk> emptyDesk() {
    return std::make_unique<Desk>(file::embeddedModels(),
                                  engine::PoolSettings{.workers = 2, .program = EBBLINE_PROGRAM});
}

std::unique_ptr<Desk> deskOf(const std::string& name) {
    auto desk = emptyDesk();
    desk->open(documentOf(name));
    return desk;
}

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

bool says(const Desk& desk, const std::string& text) {
    return allTexts(desk::draw(desk, laptop)).find(text) != std::string::npos;
}

} // namespace ebbline::desks
