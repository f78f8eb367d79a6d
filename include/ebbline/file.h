// SPDX-License-Identifier: MIT
// TOML files in and out: scenes and catalogues. The only folder that knows toml++.
#pragma once

#include "ebbline/cases.h"
#include "ebbline/installation.h"
#include "ebbline/lesson.h"
#include "ebbline/models.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline {

/// A scene as its text and what the text says.
struct Document {
    std::filesystem::path path; ///< where relative names start; empty for a text without a file
    std::string text;
    Installation installation;
    Catalogues catalogues; ///< those it was read with, and what its own `use` adds
};

/// A lesson with the scene it goes through.
struct LessonFile {
    Lesson lesson;
    Document document;
};

namespace file {

/// The models embedded in the program.
[[nodiscard]] const Models& embeddedModels();
/// The models of a folder. Throws SceneError for what is wrong in it.
[[nodiscard]] Models readModels(const std::filesystem::path& folder);

/// Reads a scene file. Throws SceneError with every problem found, sorted by place, and
/// std::system_error when the file cannot be read.
[[nodiscard]] Document read(const std::filesystem::path& path, const Catalogues& catalogues);
/// Reads a scene from its text; `name` stands for the file in messages, and what it uses lies
/// below `folder`.
[[nodiscard]] Document readText(std::string_view text,
                                const std::string& name,
                                const Catalogues& catalogues,
                                const std::filesystem::path& folder = {});

/// Reads a file of cases, changes of `installation`. Throws SceneError with every problem found,
/// and std::system_error when the file cannot be read.
[[nodiscard]] Cases readCases(const std::filesystem::path& path, const Installation& installation);
/// The same from its text; `name` stands for the file in messages.
[[nodiscard]] Cases
readCasesText(std::string_view text, const std::string& name, const Installation& installation);

/// What a text calls itself.
struct Heading {
    std::string what; ///< kind of file: "scene", "lesson" ...; empty where it is no file of ours
    std::string title;
};
[[nodiscard]] Heading headingOf(std::string_view text);
/// Reads a lesson and its scene. Throws SceneError with every problem found, and std::system_error
/// when a file cannot be read.
[[nodiscard]] LessonFile readLesson(const std::filesystem::path& path,
                                    const Catalogues& catalogues);

/// A whole scene as text, without what is as the catalogues or the built-in defaults have it. Read
/// with the same catalogues it is the same installation, comments and x- keys aside. Throws
/// SceneError for a run whose cores state their sizes in different ways, which no file can say.
[[nodiscard]] std::string write(const Installation& installation,
                                const Catalogues& catalogues = embeddedModels().catalogues);

/// Keys that stand together in a catalogue, and what is said above them.
struct KeyGroup {
    std::string heading;
    std::vector<std::string> keys;
};
/// A part as an entry of a catalogue; its id is the entry's.
struct CatalogueEntry {
    Part part;
    std::string source;
    std::string certainty; ///< "measured", "memory", "ESTIMATE", ...
    std::vector<KeyGroup> groups;
};
/// A whole catalogue with that one entry.
[[nodiscard]] std::string writeCatalogue(const CatalogueEntry& entry);

/// The scene embedded in the program that `ebbline start` shows without an argument.
[[nodiscard]] std::string_view embeddedScene();

/// The bytes of a file, of a larger one than is ever read only the first 4 MiB and a few. Throws
/// std::system_error.
[[nodiscard]] std::string readBytes(const std::filesystem::path& path);

} // namespace file
} // namespace ebbline
