// SPDX-License-Identifier: MIT
// What the mouse asks of the desk.
#pragma once

#include "ebbline/desk.h"

#include <SFML/Window/Event.hpp>

#include <optional>

namespace ebbline::window {

/// Places are in the sheet's pixels. Everything returns true where there is something new to see.
class Mouse {
public:
    explicit Mouse(Desk& desk) : m_desk(desk) {}

    bool press(sf::Mouse::Button button, Point at, const desk::Sheet& sheet);
    bool move(Point at, const desk::Sheet& sheet);
    bool release(Point at, const desk::Sheet& sheet);
    /// Larger or smaller about the pointer.
    bool scroll(float notches, Point at, const desk::Sheet& sheet);

private:
    /// What a button that is down does while the mouse moves.
    enum class Drag { None, Scrub, Mark, Pan, Turn };

    bool pressLeft(Point at, const desk::Sheet& sheet);
    void begin(Drag drag, Point at);
    void turnTo(Point at);

    Desk& m_desk;
    Drag m_drag = Drag::None;
    Point m_from;             ///< where it began, or was dealt with last
    bool m_has_moved = false; ///< far enough to be a drag
    TimeAxis m_axis;          ///< as it was when the button went down
    desk::Spot m_card;        ///< of the handle that is turned
};

} // namespace ebbline::window
