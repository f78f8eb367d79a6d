// SPDX-License-Identifier: MIT
// What the command line can do.
#pragma once

#include "ebbline/error.h"
#include "ebbline/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline::cli {

/// Which installation, and what is different about it.
struct SceneOptions {
    std::string scene;             ///< empty: the embedded one
    std::string models;            ///< folder; empty: the embedded ones
    std::vector<std::string> with; ///< conditions, variants, set-ups by id, in order
    std::vector<std::string> set;  ///< "path=value", after those
};

struct StartOptions {
    SceneOptions scene;
    std::string json;     ///< file, "-" for standard output, empty: text instead
    std::string waveform; ///< file, "-" for standard output, empty: none
    std::string expect;   ///< outcome; empty: any
    RuleSettings rules;
};
[[nodiscard]] ExitCode start(const StartOptions& options);

struct ReportOptions {
    SceneOptions scene;
    RuleSettings rules;
    std::string date; ///< as printed; empty: none
    std::string output;
};
[[nodiscard]] ExitCode writeReport(const ReportOptions& options);

struct HandoutOptions {
    SceneOptions scene;
    RuleSettings rules;
    bool answers = false;
    std::string paper = "a4"; ///< or "letter"
    std::string output;
};
[[nodiscard]] ExitCode handout(const HandoutOptions& options);

struct DeckOptions {
    SceneOptions scene;
    std::string output = "-";
    int attempts = 3;
    bool held_off = false;
    bool full = false;
};
[[nodiscard]] ExitCode deck(const DeckOptions& options);

struct CheckOptions {
    SceneOptions scene;
    std::string json; ///< as of StartOptions
};
[[nodiscard]] ExitCode check(const CheckOptions& options);

struct PartsOptions {
    std::string models; ///< folder; empty: the embedded ones
    std::string json;   ///< as of StartOptions
    bool terminals = false;
    bool keys = false;
};
[[nodiscard]] ExitCode parts(const PartsOptions& options);

struct LessonOptions {
    std::string lesson;
};
[[nodiscard]] ExitCode lesson(const LessonOptions& options);

struct WindowOptions {
    std::string scene;  ///< or a lesson; empty: the embedded scene
    std::string record; ///< file for every text shown, with its place; empty: none
    bool still = false; ///< nothing glides: play goes from event to event
};
/// Becomes the program that draws on a screen; returns only by throwing std::system_error.
[[nodiscard]] ExitCode window(const WindowOptions& options);

struct PictureOptions {
    SceneOptions scene;
    std::optional<double> at_s; ///< scene time; absent: the lowest moment
    std::string size = "1600x1000";
    std::string only; ///< "plan", "gap" or "time"; empty: the whole page
    bool room = false;
    std::string paper = "light"; ///< or "dark"
    std::string output;
};
[[nodiscard]] ExitCode picture(const PictureOptions& options);

} // namespace ebbline::cli
