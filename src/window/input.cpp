// SPDX-License-Identifier: MIT
// What keys and mouse ask of the desk. Letters are taken as typed, so that a key is where its
// letter is on every keyboard.
#include "input.h"

#include <algorithm>

namespace ebbline::window {
namespace {

constexpr double least_scale = 0.5;
constexpr double most_scale = 4;
constexpr double scale_step = 1.1;

} // namespace

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
        return takeKey(event.key);
    case sf::Event::TextEntered:
        return takeLetter(event.text.unicode);
    case sf::Event::MouseButtonPressed:
        return event.mouseButton.button == sf::Mouse::Left &&
               press(placeOf(event.mouseButton.x, event.mouseButton.y));
    case sf::Event::MouseButtonReleased:
        m_scrubbed = std::nullopt;
        return false;
    case sf::Event::MouseMoved:
        return move(placeOf(event.mouseMove.x, event.mouseMove.y));
    default:
        return false;
    }
}

Point Input::placeOf(int x, int y) const {
    return {x / m_screen.zoom(), y / m_screen.zoom()};
}

/// While the list of files lies over the pictures.
bool Input::takeListKey(const sf::Event::KeyEvent& key) {
    switch (key.code) {
    case sf::Keyboard::Down:
        m_desk.choose(1);
        return true;
    case sf::Keyboard::Up:
        m_desk.choose(-1);
        return true;
    case sf::Keyboard::Enter:
        m_desk.openChoice(m_desk.chosen());
        return true;
    case sf::Keyboard::Escape:
        m_desk.setCover(Cover::None);
        return true;
    default:
        return false;
    }
}

bool Input::takeKey(const sf::Event::KeyEvent& key) {
    if (m_desk.cover() == Cover::Files)
        return takeListKey(key);
    Player& player = m_desk.player();
    switch (key.code) {
    case sf::Keyboard::Space:
        togglePlay();
        return true;
    case sf::Keyboard::Right:
        player.step(1);
        return true;
    case sf::Keyboard::Left:
        player.step(-1);
        return true;
    case sf::Keyboard::Down:
        player.stepEvent(1);
        return true;
    case sf::Keyboard::Up:
        player.stepEvent(-1);
        return true;
    case sf::Keyboard::Home:
        player.seek(player.timeline().moments_s.front());
        return true;
    case sf::Keyboard::End:
        player.seekWorst();
        return true;
    case sf::Keyboard::PageDown:
        m_desk.goOn(1);
        return true;
    case sf::Keyboard::PageUp:
        m_desk.goOn(-1);
        return true;
    case sf::Keyboard::Enter:
        m_desk.reveal();
        return true;
    case sf::Keyboard::BackSpace:
        m_desk.putBack();
        return true;
    case sf::Keyboard::Escape:
        m_desk.setCover(Cover::None);
        return true;
    default:
        return false;
    }
}

bool Input::takeLetter(sf::Uint32 letter) {
    if (letter >= '0' && letter <= '9') {
        m_desk.countHands(static_cast<int>(letter - '0'));
        return true;
    }
    const sf::Uint32 large = letter >= 'a' && letter <= 'z' ? letter - 32 : letter;
    for (const HandleKind handle : all_handles) {
        const HandleKeys keys = desk::keysOf(handle);
        const bool is_up = large == static_cast<sf::Uint32>(keys.up);
        if (is_up || large == static_cast<sf::Uint32>(keys.down)) {
            m_desk.turn(handle, is_up ? 1 : -1);
            return true;
        }
    }
    switch (large) {
    case 'P':
        nextPace();
        return true;
    case 'C':
        m_desk.hide(m_desk.revealed() == Reveal::Everything);
        return true;
    case 'O':
        m_desk.setRoom(!m_desk.isRoom());
        return true;
    case 'N':
        m_screen.paper = m_screen.paper == Paper::Light ? Paper::Dark : Paper::Light;
        return true;
    case '+':
        m_screen.scale = std::min(most_scale, m_screen.scale * scale_step);
        return true;
    case '-':
        m_screen.scale = std::max(least_scale, m_screen.scale / scale_step);
        return true;
    case 'L':
        if (m_desk.cover() == Cover::Files)
            m_desk.setCover(Cover::None);
        else
            m_desk.listFiles();
        return true;
    case '?':
        toggleCover(Cover::Help);
        return true;
    default:
        return false;
    }
}

bool Input::press(Point at) {
    for (const desk::Spot& spot : m_sheet.spots) {
        if (!spot.box.contains({at.x, at.y, 0, 0}))
            continue;
        if (spot.choice)
            m_desk.openChoice(*spot.choice);
        else if (spot.handle)
            m_desk.turn(*spot.handle, spot.direction);
        else
            togglePlay();
        return true;
    }
    if (m_desk.cover() != Cover::None) {
        m_desk.setCover(Cover::None);
        return true;
    }
    m_scrubbed = m_sheet.axisAt(at);
    return move(at);
}

bool Input::move(Point at) {
    if (m_scrubbed) {
        m_desk.player().pause();
        m_desk.player().seek(m_scrubbed->timeAt(at.x));
    }
    m_desk.point(m_scrubbed ? std::nullopt : std::optional(at));
    return true;
}

void Input::togglePlay() {
    Player& player = m_desk.player();
    if (player.isPlaying())
        player.pause();
    else
        player.play();
}

void Input::nextPace() {
    constexpr int paces = 4;
    Player& player = m_desk.player();
    player.setPace(static_cast<Pace>((static_cast<int>(player.pace()) + 1) % paces));
}

void Input::toggleCover(Cover cover) {
    m_desk.setCover(m_desk.cover() == cover ? Cover::None : cover);
}

} // namespace ebbline::window
