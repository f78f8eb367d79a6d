// SPDX-License-Identifier: MIT
// The real window plays a lesson of one step; what it took stands in its record.
#include "window.h"

#include "rows.h"
#include "trunk.h"

#include <SFML/Graphics/RenderWindow.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

namespace ebbline::bench {
namespace {

constexpr unsigned width = 1280; // as the window opens
constexpr unsigned height = 800;

/// A frame of the record.
struct Frame {
    std::string accuracy; ///< of the start in it; "none" where there is none yet
    double layout_s = 0;
    double painting_s = 0;
    double display_s = 0;
    [[nodiscard]] double whole_s() const { return layout_s + painting_s + display_s; }
};

std::vector<Frame> framesIn(const std::filesystem::path& record) {
    std::vector<Frame> frames;
    std::ifstream file(record, std::ios::binary);
    for (std::string line; std::getline(file, line);) {
        std::istringstream words(line);
        std::string word;
        std::string at;
        std::string age;
        Frame frame;
        words >> word;
        if (word != "frame" || !(words >> at >> frame.accuracy >> age >> frame.layout_s >>
                                 frame.painting_s >> frame.display_s))
            continue;
        for (double* took : {&frame.layout_s, &frame.painting_s, &frame.display_s})
            *took /= 1e3;
        frames.push_back(frame);
    }
    return frames;
}

/// One visit of the window.
struct Visit {
    double first_frame_s = 0;
    double first_picture_s = 0; ///< the first that shows a start
    std::vector<Frame> frames;
};

Visit visit(const std::filesystem::path& lesson, std::chrono::seconds how_long) {
    const auto record = lesson.parent_path() / "record.txt";
    std::filesystem::remove(record);
    const auto begin = Clock::now();
    const pid_t child = fork();
    if (child == 0) {
        execl(EBBLINE_PROGRAM,
              EBBLINE_PROGRAM,
              "window",
              lesson.c_str(),
              "--record",
              record.c_str(),
              nullptr);
        _exit(1);
    }
    Visit seen;
    while (Clock::now() - begin < how_long) {
        std::this_thread::sleep_for(std::chrono::milliseconds(seen.first_picture_s > 0 ? 100 : 2));
        if (seen.first_picture_s > 0)
            continue;
        seen.frames = framesIn(record);
        if (!seen.frames.empty() && seen.first_frame_s == 0)
            seen.first_frame_s = secondsSince(begin);
        if (!seen.frames.empty() && seen.frames.back().accuracy != "none")
            seen.first_picture_s = secondsSince(begin);
    }
    kill(child, SIGTERM);
    waitpid(child, nullptr, 0);
    seen.frames = framesIn(record);
    return seen;
}

std::filesystem::path writeLesson(const std::filesystem::path& folder) {
    std::ofstream(folder / "sixty.toml", std::ios::binary) << sceneOf(60);
    const auto lesson = folder / "playing.toml";
    std::ofstream(lesson, std::ios::binary)
        << "ebbline = 1\nwhat = \"lesson\"\ntitle = \"playing\"\nscene = \"sixty.toml\"\n"
           "[[step]]\nsay = \"It is played.\"\nplay = true\n";
    return lesson;
}

std::string middleAndMost(const std::vector<double>& times_s) {
    return milliseconds(median(times_s)) + ", 95th centile " + milliseconds(centile(times_s, 0.95));
}

template <class Time>
std::vector<double> timesOf(const std::vector<Frame>& frames, Time time) {
    std::vector<double> times_s;
    for (const Frame& frame : frames)
        if (frame.accuracy != "none")
            times_s.push_back(std::invoke(time, frame));
    return times_s;
}

/// Clearing and displaying an empty window of that size.
std::vector<double> emptyFrames() {
    sf::RenderWindow window(sf::VideoMode(width, height), "nothing");
    std::vector<double> times_s;
    for (int i = 0; i < 200; ++i)
        times_s.push_back(timed([&] {
            window.clear();
            window.display();
        }));
    return times_s;
}

} // namespace

void benchWindow(const std::filesystem::path& folder) {
    setenv("XDG_STATE_HOME", folder.c_str(), 1);
    const auto lesson = writeLesson(folder);
    const std::vector<double> empty = emptyFrames();
    const Visit long_one = visit(lesson, std::chrono::seconds(12));
    const std::string reference =
        "an empty window of that size, cleared and displayed: " + middleAndMost(empty);
    row("frame of 1280 x 800 while sixty parts are played, no graphics card",
        "16 ms",
        middleAndMost(timesOf(long_one.frames, &Frame::whole_s)),
        reference);
    row("of it layout / painting / display",
        "-",
        milliseconds(median(timesOf(long_one.frames, &Frame::layout_s))) + " / " +
            milliseconds(median(timesOf(long_one.frames, &Frame::painting_s))) + " / " +
            milliseconds(median(timesOf(long_one.frames, &Frame::display_s))),
        std::to_string(long_one.frames.size()) + " frames");
    std::vector<double> frames;
    std::vector<double> pictures;
    for (int i = 0; i < 5; ++i) {
        const Visit one = visit(lesson, std::chrono::seconds(4));
        frames.push_back(one.first_frame_s);
        pictures.push_back(one.first_picture_s);
    }
    row("from the command to the window's first frame / first picture of a start",
        "500 ms",
        milliseconds(median(frames)) + " / " + milliseconds(median(pictures)),
        "an empty window opened and displayed: " + milliseconds(timed([] {
            sf::RenderWindow window(sf::VideoMode(width, height), "nothing");
            window.clear();
            window.display();
        })));
}

} // namespace ebbline::bench
