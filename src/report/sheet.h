// SPDX-License-Identifier: MIT
// Rows of a label and what is to be said under it, wrapped for a terminal.
#pragma once

#include "ebbline/words.h"

#include <span>
#include <string>
#include <string_view>

namespace ebbline::report {

class Sheet {
public:
    /// Labels take this many columns.
    explicit Sheet(std::size_t label_width) : m_label_width(label_width) {}

    /// A row; what no longer fits goes to further lines under the first. Lines break behind a
    /// comma, a semicolon, a colon or "and", so that a value keeps its unit.
    void add(std::string_view label, std::string_view words);
    /// A line of its own; empty: a blank one.
    void addLine(std::string_view line);

    [[nodiscard]] const std::string& text() const { return m_text; }

private:
    std::size_t m_label_width;
    std::string m_text;
};

/// "a, b, c" with whatever stands between.
[[nodiscard]] std::string joined(std::span<const std::string> items,
                                 std::string_view between = ", ");
/// "a", "a and b", "a, b and c"; another word may stand before the last.
[[nodiscard]] std::string listed(std::span<const std::string> items,
                                 const std::string& last = words(" and "));

} // namespace ebbline::report
