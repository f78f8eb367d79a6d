// SPDX-License-Identifier: MIT
// ebbline window: the program beside this one that draws on a screen.
#include "commands.h"

#include "ebbline/words.h"

#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

namespace ebbline::cli {

ExitCode window(const WindowOptions& options) {
    const auto program =
        std::filesystem::read_symlink("/proc/self/exe").parent_path() / "ebbline-window";
    std::vector<std::string> arguments{program.string(),
                                       options.scene,
                                       options.record,
                                       reader().language,
                                       std::to_string(static_cast<int>(reader().sizes)),
                                       options.still ? "still" : ""};
    std::vector<char*> pointers;
    pointers.reserve(arguments.size() + 1);
    for (std::string& argument : arguments)
        pointers.push_back(argument.data());
    pointers.push_back(nullptr);
    execv(program.c_str(), pointers.data());
    throw std::system_error(errno, std::generic_category(), program.string());
}

} // namespace ebbline::cli
