// SPDX-License-Identifier: MIT
// What keys ask of the desk.
#pragma once

#include "screen.h"

#include <SFML/Window/Event.hpp>

namespace ebbline::window {

/// Everything returns true where there is something new to see.
class Keys {
public:
    Keys(Desk& desk, Screen& screen) : m_desk(desk), m_screen(screen) {}

    /// A key that is no letter.
    bool press(const sf::Event::KeyEvent& key, const desk::Sheet& sheet);
    /// A letter as typed, so that a key is where its letter is on every keyboard.
    bool type(sf::Uint32 letter, const desk::Sheet& sheet);

private:
    bool pressInList(const sf::Event::KeyEvent& key);
    bool pressInPlay(const sf::Event::KeyEvent& key);
    bool pan(const sf::Event::KeyEvent& key, const desk::Sheet& sheet);
    bool typeForHandle(sf::Uint32 letter);
    bool typeForPictures(sf::Uint32 letter, const desk::Sheet& sheet);
    bool typeForScreen(sf::Uint32 letter);
    void moveLead(const desk::Sheet& sheet, int direction);
    void nextPace();
    void toggleCover(Cover cover);

    Desk& m_desk;
    Screen& m_screen;
};

} // namespace ebbline::window
