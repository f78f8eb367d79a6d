// SPDX-License-Identifier: MIT
// The report that travels: one HTML file that needs nothing else.
#pragma once

#include "ebbline/inquiry.h"

#include <string>
#include <vector>

namespace ebbline {

/// What a report says of its own making.
struct Edition {
    std::string version;              ///< of the program
    std::string date;                 ///< as the user states it; may be empty
    std::string scene;                ///< name of the scene's file; may be empty
    std::string scene_text;           ///< its bytes, of which a hash is printed
    std::vector<std::string> changes; ///< by which it differs from the scene, in words
};

namespace report {

/// A page for phone, laptop, wall and A4 paper that plays the start; the same bytes for the same
/// inquiry and edition. No text of the scene can become markup or script.
[[nodiscard]] std::string writeHtml(const Inquiry& inquiry, const Edition& edition);

} // namespace report
} // namespace ebbline
