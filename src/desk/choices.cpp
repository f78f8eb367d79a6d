// SPDX-License-Identifier: MIT
// Which scenes and lessons one can open from here.
#include "ebbline/choices.h"

#include "ebbline/file.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <system_error>

namespace ebbline::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_choices = 200;
constexpr std::size_t most_recent = 10;

std::vector<fs::path> tomlFiles(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error))
        if (entry.path().extension() == ".toml" && entry.is_regular_file(error))
            files.push_back(entry.path());
    std::ranges::sort(files);
    return files;
}

std::optional<fs::path> recentFile() {
    if (const char* state = std::getenv("XDG_STATE_HOME"); state != nullptr && *state == '/')
        return fs::path(state) / "ebbline" / "recent";
    if (const char* home = std::getenv("HOME"); home != nullptr && *home == '/')
        return fs::path(home) / ".local" / "state" / "ebbline" / "recent";
    return std::nullopt;
}

} // namespace

std::optional<Choice> choiceOf(const fs::path& path) {
    try {
        const file::Heading heading = file::headingOf(file::readBytes(path));
        if (heading.what != "scene" && heading.what != "lesson")
            return std::nullopt;
        return Choice{.path = path,
                      .title = heading.title.empty() ? path.filename().string() : heading.title,
                      .is_lesson = heading.what == "lesson"};
    } catch (const std::system_error&) {
        return std::nullopt;
    }
}

std::vector<Choice> findChoices(const fs::path& folder) {
    std::vector<Choice> choices;
    for (const fs::path& from : {folder, folder / "lessons"})
        for (const fs::path& path : tomlFiles(from))
            if (choices.size() < most_choices)
                if (auto choice = choiceOf(path))
                    choices.push_back(std::move(*choice));
    return choices;
}

std::vector<fs::path> recentFiles() {
    std::vector<fs::path> files;
    const auto path = recentFile();
    if (!path)
        return files;
    std::ifstream kept(*path);
    std::error_code error;
    for (std::string line; files.size() < most_recent && std::getline(kept, line);)
        if (fs::is_regular_file(line, error))
            files.emplace_back(line);
    return files;
}

void rememberFile(const fs::path& path) {
    std::error_code error;
    const fs::path whole = fs::absolute(path, error);
    const auto kept = recentFile();
    if (error || !kept || whole.string().find('\n') != std::string::npos)
        return;
    std::vector<fs::path> files = recentFiles();
    std::erase(files, whole);
    files.insert(files.begin(), whole);
    fs::create_directories(kept->parent_path(), error);
    std::ofstream out(*kept, std::ios::trunc);
    for (const fs::path& file : files)
        out << file.string() << '\n';
}

} // namespace ebbline::desk
