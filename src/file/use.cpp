// SPDX-License-Identifier: MIT
// Further catalogues that a scene names in `use`.
#include "reading.h"

#include "ebbline/file.h"
#include "ebbline/words.h"

#include <system_error>

namespace ebbline::file {
namespace {

/// Why a file may not be used; empty when it may. Links must not lead out of the folder.
std::string whyNotUsed(const std::string& name, const std::filesystem::path& folder) {
    if (folder.empty())
        return words("this text lies in no folder, so it cannot use {}", inQuotes(name));
    if (!isBelow(name))
        return words("{} does not lie below the scene's folder", inQuotes(name));
    std::error_code error;
    const auto whole = std::filesystem::canonical(folder / name, error);
    if (error)
        return words("there is no file {} in the scene's folder", inQuotes(name));
    if (!isBelow(std::filesystem::relative(whole, std::filesystem::canonical(folder, error))))
        return words("{} leads out of the scene's folder", inQuotes(name));
    if (!std::filesystem::is_regular_file(whole, error))
        return words("{} is no regular file", inQuotes(name));
    return "";
}

void useOne(const toml::node& node,
            const std::string& name,
            const std::filesystem::path& folder,
            Catalogues& catalogues,
            Problems& problems) {
    if (const std::string why = whyNotUsed(name, folder); !why.empty()) {
        problems.add(node.source(), why);
        return;
    }
    try {
        readCatalogue((folder / name).string(), readBytes(folder / name), catalogues);
    } catch (const SceneError& error) {
        for (const Problem& problem : error.problems())
            problems.addElsewhere(problem);
    } catch (const std::system_error& error) {
        problems.add(node.source(), words("{} cannot be read", inQuotes(name)));
    }
}

} // namespace

std::vector<std::string>
useCatalogues(Fields& top, const std::filesystem::path& folder, Catalogues& catalogues) {
    constexpr std::size_t most_files = 20;
    std::vector<std::string> names;
    const toml::node* node = top.take("use");
    if (node == nullptr)
        return names;
    if (!node->is_array())
        top.problems().add(node->source(), words("'use' wants an array of file names"));
    else if (node->as_array()->size() > most_files)
        top.problems().add(
            node->source(),
            words("'use' names {} files, expected up to {}", node->as_array()->size(), most_files));
    else
        for (const toml::node* one : elements(*node))
            if (const auto name = textOf(*one, "use", top.problems())) {
                useOne(*one, *name, folder, catalogues, top.problems());
                names.push_back(*name);
            }
    return names;
}

} // namespace ebbline::file
