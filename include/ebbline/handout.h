// SPDX-License-Identifier: MIT
// A sheet for a class on paper, and the same sheet filled in for its trainer.
#pragma once

#include "ebbline/inquiry.h"

#include <string>
#include <vector>

namespace ebbline {

enum class SheetSize { A4, Letter };

/// What a sheet says of its own making. The class sees nothing but the version.
struct HandoutEdition {
    SheetSize paper = SheetSize::A4;
    std::string version;              ///< of the program
    std::string scene;                ///< name of the scene's file; may be empty
    std::vector<std::string> changes; ///< by which it differs from the scene, in words
};

namespace report {

/// One sheet of HTML with empty boxes. It is made of what an eye sees and of nothing else, so it is
/// the same whatever is wrong with the installation.
[[nodiscard]] std::string writeClassSheet(const Installation& installation,
                                          const Catalogues& catalogues,
                                          const HandoutEdition& edition);

/// The same sheet with every box filled, the cause and what to do first.
[[nodiscard]] std::string writeAnswerSheet(const Inquiry& inquiry,
                                           const Catalogues& catalogues,
                                           const HandoutEdition& edition);

} // namespace report
} // namespace ebbline
