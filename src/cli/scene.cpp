// SPDX-License-Identifier: MIT
// The installation that a command line names, with everything that is different about it.
#include "scene.h"

#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <cerrno>
#include <charconv>
#include <fstream>
#include <iostream>
#include <system_error>

namespace ebbline::cli {
namespace {

[[noreturn]] void refuse(const std::string& message) {
    throw SceneError({Problem{.message = message}});
}

Models readModels(const std::string& folder) {
    return folder.empty() ? file::embeddedModels() : file::readModels(folder);
}

Document readDocument(const std::string& scene, const Models& models) {
    return scene.empty()
               ? file::readText(file::embeddedScene(), "embedded scene", models.catalogues)
               : file::read(scene, models.catalogues);
}

/// A text as the key wants it; what does not fit stays a text and is refused by its type.
Value valueOf(const std::string& text, const installation::Key& key) {
    if (key.type == installation::ValueType::Flag && (text == "true" || text == "false"))
        return text == "true";
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool is_number = error == std::errc{} && end == text.data() + text.size();
    return key.type == installation::ValueType::Number && is_number ? Value(number) : Value(text);
}

Change changeOf(const Installation& installation, const std::string& assignment) {
    const std::size_t sign = assignment.find('=');
    if (sign == std::string::npos)
        refuse(words("--set wants path=value, found '{}'", assignment));
    const std::string path = assignment.substr(0, sign);
    return Set{path,
               valueOf(assignment.substr(sign + 1), installation::findTarget(installation, path))};
}

std::vector<std::string> changeSetNames(const Installation& installation) {
    std::vector<std::string> names;
    for (const auto* sets :
         {&installation.conditions, &installation.variants, &installation.setups})
        for (const ChangeSet& one : *sets)
            names.push_back(one.id);
    return names;
}

Installation changed(Installation installation, const SceneOptions& options) {
    installation = installation::apply(installation, installation::faultChanges(installation));
    for (const std::string& id : options.with) {
        const ChangeSet* named = installation.findChangeSet(id);
        if (named == nullptr) {
            const auto nearest = text::findNearest(id, changeSetNames(installation));
            refuse(nearest
                       ? words("no condition, variant or set-up is called '{}', did you mean '{}'",
                               id,
                               *nearest)
                       : words("no condition, variant or set-up is called '{}'", id));
        }
        installation = installation::apply(installation, std::vector<Change>(named->changes));
    }
    for (const std::string& assignment : options.set)
        installation =
            installation::apply(installation, std::vector{changeOf(installation, assignment)});
    return installation;
}

} // namespace

Scene readScene(const SceneOptions& options) {
    Scene scene{.models = readModels(options.models)};
    scene.document = readDocument(options.scene, scene.models);
    scene.models.catalogues = scene.document.catalogues;
    scene.installation = changed(scene.document.installation, options);
    return scene;
}

std::vector<std::string> changesOf(const Scene& scene, const SceneOptions& options) {
    std::vector<std::string> changes;
    for (const std::string& id : options.with) {
        const ChangeSet* set = scene.document.installation.findChangeSet(id);
        changes.push_back(set == nullptr || set->name.empty() ? id : id + " (" + set->name + ")");
    }
    changes.insert(changes.end(), options.set.begin(), options.set.end());
    return changes;
}

void write(const std::string& path, const std::string& text) {
    if (path == "-") {
        std::cout << text << std::flush;
        return;
    }
    std::ofstream file(path, std::ios::binary);
    file << text << std::flush;
    if (!file)
        throw std::system_error(errno, std::generic_category(), words("cannot write '{}'", path));
}

} // namespace ebbline::cli
