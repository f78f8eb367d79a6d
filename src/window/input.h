// SPDX-License-Identifier: MIT
// What keys and mouse ask of the desk.
#pragma once

#include "ebbline/desk.h"

#include <SFML/Window/Event.hpp>

#include <optional>

namespace ebbline::window {

/// How the sheet is shown.
struct Screen {
    unsigned width = 1280; ///< pixels
    unsigned height = 800;
    double scale = 1; ///< pixels for each of the sheet's
    Paper paper = Paper::Light;

    [[nodiscard]] View view() const { return {width / scale, height / scale, paper}; }
};

class Input {
public:
    Input(Desk& desk, Screen& screen) : m_desk(desk), m_screen(screen) {}

    /// What clicks go to from now on.
    void show(desk::Sheet sheet) { m_sheet = std::move(sheet); }

    /// True where there is something new to see.
    bool take(const sf::Event& event);

private:
    bool takeKey(const sf::Event::KeyEvent& key);
    bool takeLetter(sf::Uint32 letter);
    bool press(Point at);
    bool move(Point at);
    void togglePlay();
    void nextPace();
    void toggleCover(Cover cover);
    [[nodiscard]] Point placeOf(int x, int y) const;

    Desk& m_desk;
    Screen& m_screen;
    desk::Sheet m_sheet;
    bool m_is_scrubbing = false;
};

} // namespace ebbline::window
