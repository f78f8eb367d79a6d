// SPDX-License-Identifier: MIT
// Which of the window's events goes where.
#include "input.h"

namespace ebbline::window {

bool Input::take(const sf::Event& event) {
    switch (event.type) {
    case sf::Event::Resized:
        m_screen.width = event.size.width;
        m_screen.height = event.size.height;
        return true;
    case sf::Event::GainedFocus:
    case sf::Event::MouseEntered:
        return true; // it may have lain under another window
    case sf::Event::MouseLeft:
        m_desk.point(std::nullopt);
        return true;
    case sf::Event::KeyPressed:
        return m_keys.press(event.key, m_sheet);
    case sf::Event::TextEntered:
        return m_keys.type(event.text.unicode, m_sheet);
    case sf::Event::MouseButtonPressed:
        return m_mouse.press(
            event.mouseButton.button, placeOf(event.mouseButton.x, event.mouseButton.y), m_sheet);
    case sf::Event::MouseButtonReleased:
        return m_mouse.release(placeOf(event.mouseButton.x, event.mouseButton.y), m_sheet);
    case sf::Event::MouseMoved:
        return m_mouse.move(placeOf(event.mouseMove.x, event.mouseMove.y), m_sheet);
    case sf::Event::MouseWheelScrolled:
        return m_mouse.scroll(event.mouseWheelScroll.delta,
                              placeOf(event.mouseWheelScroll.x, event.mouseWheelScroll.y),
                              m_sheet);
    default:
        return false;
    }
}

} // namespace ebbline::window
