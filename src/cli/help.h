// SPDX-License-Identifier: MIT
// What --help says around the options, in the reader's language.
#pragma once

#include <CLI/CLI.hpp>

#include <string>

namespace ebbline::cli {

/// The language to explain the options in: that of --language, which is looked for before the
/// command line is read, else of the environment.
[[nodiscard]] std::string languageOfHelp(int argc, char** argv);

/// Description, examples, exit status, headings, --help and --version. Commands that are added
/// later take the headings over.
void addHelp(CLI::App& app);

} // namespace ebbline::cli
