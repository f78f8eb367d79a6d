// SPDX-License-Identifier: MIT
// Catalogues and circuit texts, embedded or from a folder.
#include "reading.h"

#include "ebbline/embedded.h"
#include "ebbline/file.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::file {
namespace {

bool isModel(const std::filesystem::path& name) {
    return name.extension() == ".lib" || name.extension() == ".toml";
}

void add(const std::filesystem::path& name, std::string text, Models& models) {
    if (name.extension() == ".lib")
        models.circuits[name.stem().string()] = std::move(text);
    else
        readCatalogue(name.string(), text, models.catalogues);
}

Models makeEmbedded() {
    Models models;
    for (const embedded::File& file : embedded::all())
        if (isModel(file.name) && file.name != "first-scene.toml")
            add(std::string(file.name), std::string(file.text), models);
    return models;
}

/// What is said of each thing that a run may ask a set of models for, and this one has not.
std::vector<std::string> missing(const Models& models) {
    std::vector<std::string> messages;
    for (const auto& [name, text] : embeddedModels().circuits)
        if (!models.circuits.contains(name))
            messages.push_back(words("no circuit {}", inQuotes(name + ".lib")));
    if (models.catalogues.conductors.empty())
        messages.push_back(words("no {} in any catalogue", "[[conductor]]"));
    if (models.catalogues.joints.empty())
        messages.push_back(words("no {} in any catalogue", "[[joint]]"));
    if (models.catalogues.fuse_styles.empty())
        messages.push_back(words("no {} in any catalogue", "[[fuse-style]]"));
    if (models.catalogues.chemistries.empty())
        messages.push_back(words("no {} in any catalogue", "[[chemistry]]"));
    return messages;
}

} // namespace

const Models& embeddedModels() {
    static const Models models = makeEmbedded();
    return models;
}

Models readModels(const std::filesystem::path& folder) {
    Models models;
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (isModel(entry.path()))
            paths.push_back(entry.path());
    std::ranges::sort(paths);
    std::vector<Problem> problems;
    for (const auto& path : paths)
        try {
            add(path, readBytes(path), models);
        } catch (const SceneError& error) {
            problems.insert(problems.end(), error.problems().begin(), error.problems().end());
        }
    // A catalogue with errors may lack more than was written.
    if (problems.empty())
        for (const std::string& message : missing(models))
            problems.push_back({.file = folder.string(), .message = message});
    if (!problems.empty())
        throw SceneError(std::move(problems));
    return models;
}

std::string_view embeddedScene() {
    return embedded::find("first-scene.toml");
}

} // namespace ebbline::file
