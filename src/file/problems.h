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

/// A scene's own word in a message: in quotes, and not longer than a line.
[[nodiscard]] std::string inQuotes(std::string_view word);

class Problems {
public:
    Problems(std::string file, std::string_view text);

    /// A problem at a node of the parsed file.
    void add(const toml::source_region& where, const std::string& message);
    void add(int line, int column, const std::string& message);
    /// A problem of another file, as it was found there.
    void addElsewhere(const Problem& problem);
    /// The message, then the nearest of the known names if one is near, else the few there are.
    void addMeant(const toml::source_region& where,
                  const std::string& message,
                  std::string_view name,
                  std::span<const std::string> known);
    /// A sentence of the table such as "unknown part {}" about the name, and what may be meant.
    void addUnknown(const toml::source_region& where,
                    const char* sentence,
                    std::string_view name,
                    std::span<const std::string> known);

    [[nodiscard]] bool any() const { return !m_problems.empty(); }
    /// Whether further problems would only be counted; what is slow to find need not be looked for.
    [[nodiscard]] bool isFull() const;
    /// Throws SceneError with all problems, sorted by place, if there are any. Of a hopeless text
    /// the first hundred found.
    void throwIfAny();

private:
    std::string m_file;
    std::vector<std::string_view> m_lines;
    std::vector<Problem> m_problems;
    std::size_t m_left_out = 0;
};

} // namespace ebbline::file
