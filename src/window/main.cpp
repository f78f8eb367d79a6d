// SPDX-License-Identifier: MIT
// The window: events in, drawings out. What they mean is the desk's. Started by `ebbline window`
// with five arguments, none of them left out: scene and record, empty or a file; language; sizes;
// "still" or empty.
#include "input.h"
#include "painter.h"
#include "record.h"

#include "ebbline/desk.h"
#include "ebbline/error.h"
#include "ebbline/file.h"
#include "ebbline/words.h"

#include <X11/Xlib.h>

#include <algorithm>
#include <charconv>
#include <clocale>
#include <filesystem>
#include <iostream>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

namespace ebbline::window {
namespace {

constexpr double longest_pause_s = 0.1; // a frame that took longer does not make play leap
constexpr float frame_s = 1.F / 60;     // waited for here: SFML's wait would count as display
constexpr float longest_still_s = 0.5;  // what another window has covered comes back without event

/// SFML ends the process where there is none. Kept open beside SFML's own connection, because a
/// server may start anew when its last client leaves.
using DisplayConnection = std::unique_ptr<Display, int (*)(Display*)>;
DisplayConnection connect() {
    return {XOpenDisplay(nullptr), XCloseDisplay};
}

engine::PoolSettings poolSettings() {
    engine::PoolSettings settings;
    settings.program = std::filesystem::read_symlink("/proc/self/exe").parent_path() / "ebbline";
    return settings;
}

class Window {
public:
    Window(Desk& desk, const std::string& record)
        : m_desk(desk), m_target(sf::VideoMode(m_screen.width, m_screen.height), "Ebbline"),
          m_input(desk, m_screen), m_record(record) {
        const sf::VideoMode whole = sf::VideoMode::getDesktopMode();
        m_target.setPosition(
            {middle(whole.width, m_screen.width), middle(whole.height, m_screen.height)});
    }

    void run() {
        sf::Clock clock;
        bool is_stale = true;
        while (m_target.isOpen()) {
            is_stale = takeEvents() || is_stale;
            const double passed_s = clock.restart().asSeconds();
            is_stale = m_desk.advance(std::min(passed_s, longest_pause_s)) || is_stale;
            if (is_stale || m_since_shown.getElapsedTime().asSeconds() > longest_still_s) {
                show();
                sf::sleep(sf::seconds(frame_s) - clock.getElapsedTime());
            } else {
                sf::sleep(sf::milliseconds(8));
            }
            is_stale = false;
        }
    }

private:
    /// No larger than the screen it opens on.
    [[nodiscard]] static Screen fittingScreen() {
        const sf::VideoMode whole = sf::VideoMode::getDesktopMode();
        Screen screen;
        screen.width = std::min(screen.width, whole.width);
        screen.height = std::min(screen.height, whole.height);
        return screen;
    }

    [[nodiscard]] static int middle(unsigned whole, unsigned part) {
        return static_cast<int>(whole - std::min(part, whole)) / 2;
    }

    bool takeEvents() {
        bool is_stale = false;
        for (sf::Event event{}; m_target.pollEvent(event);) {
            if (event.type == sf::Event::Closed)
                m_target.close();
            is_stale = m_input.take(event) || is_stale;
        }
        return is_stale;
    }

    void show() {
        m_target.setView(sf::View(sf::FloatRect(
            0, 0, static_cast<float>(m_screen.width), static_cast<float>(m_screen.height))));
        sf::Clock clock;
        FrameCost cost;
        desk::Sheet sheet = desk::draw(m_desk, m_screen.view());
        cost.layout_s = clock.restart().asSeconds();
        m_target.clear();
        m_painter.paint(m_target, sheet.drawing, m_screen.zoom());
        cost.painting_s = clock.restart().asSeconds();
        m_target.display();
        cost.display_s = clock.restart().asSeconds();
        m_record.keep(m_desk, sheet.drawing, cost);
        m_input.show(std::move(sheet));
        m_since_shown.restart();
    }

    Desk& m_desk;
    Screen m_screen = fittingScreen();
    sf::RenderWindow m_target;
    Painter m_painter;
    Input m_input;
    Record m_record;
    sf::Clock m_since_shown;
};

/// Without a file the scene inside; who has never opened one is led through it.
void openFirst(Desk& desk, const std::string& path) {
    if (!path.empty()) {
        desk.openFile(path);
        return;
    }
    Document scene =
        file::readText(file::embeddedScene(), "embedded scene", file::embeddedModels().catalogues);
    if (desk::recentFiles().empty())
        desk.welcome(std::move(scene));
    else
        desk.open(std::move(scene));
}

ExitCode run(std::span<char*> arguments) {
    if (arguments.size() != 6) {
        std::cerr << "ebbline-window is started by: ebbline window\n";
        return ExitCode::BadCommandLine;
    }
    int sizes = 0;
    const std::string wanted = arguments[4];
    std::from_chars(wanted.data(), wanted.data() + wanted.size(), sizes);
    setReader({.language = arguments[3], .sizes = static_cast<Sizes>(sizes)});
    const DisplayConnection display = connect();
    if (!display) {
        std::cerr << "ebbline: " << words("there is no display to open a window on") << '\n';
        return ExitCode::BadCommandLine;
    }
    Desk desk(file::embeddedModels(), poolSettings());
    openFirst(desk, arguments[1]);
    if (std::string_view(arguments[5]) == "still")
        desk.player().setPace(Pace::Events);
    Window(desk, arguments[2]).run();
    return ExitCode::Ran;
}

} // namespace
} // namespace ebbline::window

namespace {

/// As the command line ends, see `ebbline --help`.
ebbline::ExitCode runGuarded(std::span<char*> arguments) {
    using ebbline::ExitCode;
    try {
        return ebbline::window::run(arguments);
    } catch (const ebbline::SceneError& error) {
        std::cerr << error.what();
        return ExitCode::BadScene;
    } catch (const std::system_error& error) {
        std::cerr << "ebbline: " << ebbline::describe(error) << '\n';
        return ExitCode::BadCommandLine;
    } catch (const std::exception& error) {
        std::cerr << "ebbline: " << ebbline::words("internal error: {}", error.what()) << '\n';
        return ExitCode::InternalError;
    }
}

} // namespace

int main(int argc, char** argv) {
    std::setlocale(LC_CTYPE, "C.UTF-8"); // typed letters beyond Latin
    return static_cast<int>(runGuarded(std::span(argv, static_cast<std::size_t>(argc))));
}
