// SPDX-License-Identifier: MIT
// What the mouse asks of the desk: click, drag, wheel.
#include "mouse.h"

#include <cmath>

namespace ebbline::window {
namespace {

constexpr double notch_factor = 1.2;
constexpr double turn_pixels = 14; // of dragging for one position of a handle

/// Where no place is a moment by itself, what the cursor shows now is where the hand is.
TimeAxis under(Point hand, TimeAxis axis, double now_s) {
    if (!axis.is_scale)
        axis.box.x += hand.x - axis.xAt(now_s);
    return axis;
}

const desk::Spot* spotAt(const desk::Sheet& sheet, Point at) {
    for (const desk::Spot& spot : sheet.spots)
        if (spot.box.contains({at.x, at.y, 0, 0}))
            return &spot;
    return nullptr;
}

} // namespace

bool Mouse::press(sf::Mouse::Button button, Point at, const desk::Sheet& sheet) {
    if (button == sf::Mouse::Left)
        return pressLeft(at, sheet);
    if (m_desk.cover() != Cover::None)
        return false;
    const auto axis = sheet.axisAt(at);
    if (button == sf::Mouse::Right && axis && axis->is_scale) {
        m_axis = *axis;
        begin(Drag::Mark, at);
    } else if (sheet.pictures.contains({at.x, at.y, 0, 0})) {
        begin(Drag::Pan, at);
    }
    return false;
}

bool Mouse::pressLeft(Point at, const desk::Sheet& sheet) {
    if (const desk::Spot* spot = spotAt(sheet, at)) {
        if (spot->choice) {
            m_desk.openChoice(*spot->choice);
        } else if (spot->handle) {
            m_card = *spot;
            begin(Drag::Turn, at);
        } else {
            m_desk.player().toggle();
        }
        return true;
    }
    if (m_desk.cover() != Cover::None) {
        m_desk.setCover(Cover::None);
        return true;
    }
    const auto terminal = m_desk.leads() ? sheet.terminalAt(at) : std::nullopt;
    if (terminal) {
        m_desk.putLead(*terminal);
        return true;
    }
    if (const auto axis = sheet.axisAt(at)) {
        m_axis = under(at, *axis, m_desk.player().at());
        begin(Drag::Scrub, at);
        return move(at, sheet);
    }
    if (sheet.pictures.contains({at.x, at.y, 0, 0}))
        begin(Drag::Pan, at);
    return move(at, sheet);
}

void Mouse::begin(Drag drag, Point at) {
    m_drag = drag;
    m_from = at;
    m_has_moved = false;
}

bool Mouse::move(Point at, const desk::Sheet& sheet) {
    switch (m_drag) {
    case Drag::None:
        break;
    case Drag::Scrub:
        m_desk.player().pause();
        m_desk.player().seek(m_axis.timeAt(at.x));
        break;
    case Drag::Mark:
        m_desk.player().mark(Stretch{m_axis.timeAt(std::min(m_from.x, at.x)),
                                     m_axis.timeAt(std::max(m_from.x, at.x))});
        break;
    case Drag::Pan:
        m_desk.magnifier().pan(at.x - m_from.x, at.y - m_from.y, sheet.pictures);
        m_from = at;
        break;
    case Drag::Turn:
        turnTo(at);
        break;
    }
    m_desk.point(m_drag == Drag::None ? std::optional(at) : std::nullopt);
    return true;
}

/// To the right is up.
void Mouse::turnTo(Point at) {
    for (; std::abs(at.x - m_from.x) >= turn_pixels; m_has_moved = true) {
        const int direction = at.x > m_from.x ? 1 : -1;
        m_from.x += direction * turn_pixels;
        m_desk.turn(*m_card.handle, direction);
    }
}

bool Mouse::release(Point at, const desk::Sheet& sheet) {
    if (m_drag == Drag::Turn && !m_has_moved)
        m_desk.turn(*m_card.handle, m_card.direction);
    m_drag = Drag::None;
    return move(at, sheet);
}

bool Mouse::scroll(float notches, Point at, const desk::Sheet& sheet) {
    if (m_desk.cover() == Cover::Files) {
        m_desk.choose(notches > 0 ? -1 : 1);
        return true;
    }
    if (m_desk.cover() != Cover::None || !sheet.pictures.contains({at.x, at.y, 0, 0}))
        return false;
    m_desk.magnifier().zoom(
        std::pow(notch_factor, static_cast<double>(notches)), at, sheet.pictures);
    return true;
}

} // namespace ebbline::window
