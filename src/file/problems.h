// SPDX-License-Identifier: MIT
// Collects what is wrong in a text, with places, and throws it all at once.
#pragma once

#include "ebbline/error.h"

#include <toml++/toml.h>

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ebbline::file {

class Problems {
public:
    Problems(std::string file, std::string_view text);

    /// A problem at a node of the parsed file.
    void add(const toml::source_region& where, const std::string& message);
    void add(int line, int column, const std::string& message);
    /// The same with the nearest of the known names, if one is near.
    void addUnknown(const toml::source_region& where,
                    const std::string& what,
                    std::string_view name,
                    std::span<const std::string> known);

    /// Throws SceneError with all problems, sorted by place, if there are any.
    void throwIfAny();

private:
    std::string m_file;
    std::vector<std::string_view> m_lines;
    std::vector<Problem> m_problems;
};

/// Parses a TOML text after checking the limits that protect the parser: 4 MiB a file, 64 KiB a
/// line, 32 dots a key, 64 open brackets. Throws SceneError with the place of what is wrong.
[[nodiscard]] toml::table parse(const std::string& file, std::string_view text);

} // namespace ebbline::file
