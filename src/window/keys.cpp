// SPDX-License-Identifier: MIT
// What keys ask of the desk.
#include "keys.h"

#include <algorithm>

namespace ebbline::window {
namespace {

constexpr double least_scale = 0.5;
constexpr double most_scale = 4;
constexpr double scale_step = 1.1;
constexpr double magnify_step = 1.25;
constexpr double pan_step = 0.08; // of the pictures' width and height

/// From a terminal to the next of a sheet, round and round.
Terminal nextTerminal(const desk::Sheet& sheet, const Terminal& from, int direction) {
    const auto& all = sheet.drawing.terminals;
    const auto here = std::ranges::find(all, from, &TerminalPlace::terminal);
    if (here == all.end())
        return all.front().terminal;
    const auto count = static_cast<std::ptrdiff_t>(all.size());
    const std::ptrdiff_t next = (here - all.begin() + direction + count) % count;
    return all[static_cast<std::size_t>(next)].terminal;
}

} // namespace

bool Keys::press(const sf::Event::KeyEvent& key, const desk::Sheet& sheet) {
    if (m_desk.cover() == Cover::Files)
        return pressInList(key);
    if (key.control)
        return pan(key, sheet);
    switch (key.code) {
    case sf::Keyboard::Tab:
        moveLead(sheet, key.shift ? -1 : 1);
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
        m_desk.dismiss();
        return true;
    default:
        return pressInPlay(key);
    }
}

/// While the list of files lies over the pictures.
bool Keys::pressInList(const sf::Event::KeyEvent& key) {
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

bool Keys::pressInPlay(const sf::Event::KeyEvent& key) {
    Player& player = m_desk.player();
    switch (key.code) {
    case sf::Keyboard::Space:
        m_desk.player().toggle();
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
    default:
        return false;
    }
}

/// The arrow keys with Ctrl: to what lies on that side.
bool Keys::pan(const sf::Event::KeyEvent& key, const desk::Sheet& sheet) {
    const double right = (key.code == sf::Keyboard::Left) - (key.code == sf::Keyboard::Right);
    const double down = (key.code == sf::Keyboard::Up) - (key.code == sf::Keyboard::Down);
    m_desk.magnifier().pan(right * pan_step * sheet.pictures.width,
                           down * pan_step * sheet.pictures.height,
                           sheet.pictures);
    return right != 0 || down != 0;
}

bool Keys::type(sf::Uint32 letter, const desk::Sheet& sheet) {
    if (letter >= '0' && letter <= '9') {
        m_desk.countHands(static_cast<int>(letter - '0'));
        return true;
    }
    const sf::Uint32 large = letter >= 'a' && letter <= 'z' ? letter - 32 : letter;
    if (large == 'B' && m_desk.cover() == Cover::Files) {
        m_desk.layUnder(m_desk.chosen());
        return true;
    }
    return typeForHandle(large) || typeForPictures(large, sheet) || typeForScreen(large);
}

bool Keys::typeForHandle(sf::Uint32 letter) {
    for (const HandleKind handle : all_handles) {
        const HandleKeys keys = desk::keysOf(handle);
        const bool is_up = letter == static_cast<sf::Uint32>(keys.up);
        if (is_up || letter == static_cast<sf::Uint32>(keys.down)) {
            m_desk.turn(handle, is_up ? 1 : -1);
            return true;
        }
    }
    return false;
}

bool Keys::typeForPictures(sf::Uint32 letter, const desk::Sheet& sheet) {
    const Point middle =
        m_desk.pointer().value_or(Point{sheet.pictures.middle().x, sheet.pictures.middle().y});
    switch (letter) {
    case 'P':
        nextPace();
        return true;
    case 'I':
        m_desk.player().markBeginning();
        return true;
    case 'K':
        m_desk.player().markEnd();
        return true;
    case 'M':
        m_desk.toggleMeter();
        return true;
    case 'X':
        if (m_desk.leads())
            m_desk.leads()->holds_minus = !m_desk.leads()->holds_minus;
        return true;
    case 'Z':
        m_desk.magnifier().zoom(magnify_step, middle, sheet.pictures);
        return true;
    case 'V':
        m_desk.magnifier().zoom(1 / magnify_step, middle, sheet.pictures);
        return true;
    case 'C':
        m_desk.hide(m_desk.revealed() == Reveal::Everything);
        return true;
    case 'O':
        m_desk.setRoom(!m_desk.isRoom());
        return true;
    default:
        return false;
    }
}

bool Keys::typeForScreen(sf::Uint32 letter) {
    switch (letter) {
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
    case 'H':
        m_desk.writePaper();
        return true;
    case 'Y':
        toggleCover(Cover::Words);
        return true;
    case '?':
        toggleCover(Cover::Help);
        return true;
    default:
        return false;
    }
}

/// The lead in hand, which stays in hand.
void Keys::moveLead(const desk::Sheet& sheet, int direction) {
    if (m_desk.leads() && !sheet.drawing.terminals.empty()) {
        Terminal& lead = m_desk.leads()->inHand();
        lead = nextTerminal(sheet, lead, direction);
    }
}

void Keys::nextPace() {
    Player& player = m_desk.player();
    player.setPace(static_cast<Pace>((static_cast<int>(player.pace()) + 1) % all_paces));
}

void Keys::toggleCover(Cover cover) {
    m_desk.setCover(m_desk.cover() == cover ? Cover::None : cover);
}

} // namespace ebbline::window
