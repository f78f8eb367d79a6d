// SPDX-License-Identifier: MIT
// What keys and mouse ask of the desk.
#pragma once

#include "ebbline/desk.h"

#include <SFML/Window/Event.hpp>

#include <algorithm>
#include <optional>
#include <utility>

namespace ebbline::window {

/// How the sheet is shown.
struct Screen {
    unsigned width = 1280; ///< pixels
    unsigned height = 800;
    double scale = 1; ///< pixels for each of the sheet's, as wanted
    Paper paper = Paper::Light;

    /// As wanted, or as small as the sheet needs to keep its least size.
    [[nodiscard]] double zoom() const {
        return std::min({scale, width / desk::least_width, height / desk::least_height});
    }
    [[nodiscard]] View view() const { return {width / zoom(), height / zoom(), paper}; }
};

class Input {
public:
    Input(Desk& desk, Screen& screen) : m_desk(desk), m_screen(screen) {}

    /// What clicks go to from now on.
    void show(desk::Sheet sheet) { m_sheet = std::move(sheet); }

    /// True where there is something new to see.
    bool take(const sf::Event& event);

private:
    bool takeListKey(const sf::Event::KeyEvent& key);
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
    std::optional<TimeAxis> m_scrubbed; ///< the axis as it was when the button went down
};

} // namespace ebbline::window
