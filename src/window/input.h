// SPDX-License-Identifier: MIT
// What keys and mouse ask of the desk.
#pragma once

#include "keys.h"
#include "mouse.h"
#include "screen.h"

#include <utility>

namespace ebbline::window {

class Input {
public:
    Input(Desk& desk, Screen& screen)
        : m_desk(desk), m_screen(screen), m_keys(desk, screen), m_mouse(desk) {}

    /// What clicks go to from now on.
    void show(desk::Sheet sheet) { m_sheet = std::move(sheet); }

    /// True where there is something new to see.
    bool take(const sf::Event& event);

private:
    [[nodiscard]] Point placeOf(int x, int y) const {
        return {x / m_screen.zoom(), y / m_screen.zoom()};
    }

    Desk& m_desk;
    Screen& m_screen;
    desk::Sheet m_sheet;
    Keys m_keys;
    Mouse m_mouse;
};

} // namespace ebbline::window
