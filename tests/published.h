// SPDX-License-Identifier: MIT
// Computed values beside published ones: a section of tests/published.md, row by row.
#pragma once

#include <string>
#include <vector>

namespace ebbline::published {

/// How sure the expected value is.
enum class Certainty {
    Read,    ///< read in the source
    Memory,  ///< written down from memory of the source
    Derived, ///< arithmetic from published inputs or laws
};

struct Source {
    std::string text;
    Certainty certainty = Certainty::Read;
};

struct Quantity {
    std::string what;
    std::string unit; ///< empty of a ratio
};

/// How far a computed value may lie off: an amount of its unit, or a share of the expected value.
struct Tolerance {
    double amount = 0;
    bool is_share = false;
};
[[nodiscard]] inline Tolerance within(double amount) {
    return {amount, false};
}
[[nodiscard]] inline Tolerance percent(double amount) {
    return {amount / 100, true};
}
/// Of formulas and tables: 1e-6 of the value.
[[nodiscard]] inline Tolerance exact() {
    return {1e-6, true};
}

/// What of a table was compared with the catalogue or the code.
struct Comparison {
    int cells = 0;
    int off = 0;       ///< of them outside the tolerance
    double worst = 0;  ///< largest difference, share of the expected value
    std::string where; ///< the first cell outside
    void add(double computed, double expected, const Tolerance& tolerance, const std::string& cell);
};

/// One section. Every row is checked as it is added; `keep` holds the whole against the file.
class Sheet {
public:
    /// The section's name and the letter before its rows' numbers.
    Sheet(std::string name, std::string letter);

    void near(const Quantity& what,
              double computed,
              double expected,
              const Tolerance& tolerance,
              const Source& source);
    /// The computed value lies between two bounds.
    void
    between(const Quantity& what, double computed, double least, double most, const Source& source);
    /// A statement, with the figures it rests on.
    void holds(const std::string& what,
               bool is_true,
               const std::string& figures,
               const std::string& expected,
               const Source& source);
    /// A whole table.
    void table(const std::string& what,
               const Comparison& comparison,
               const Tolerance& tolerance,
               const Source& source);
    void keep() const;
    /// The same, but for the column of what was computed: of what is measured over many runs the
    /// last digits differ between machines.
    void keepMeasured() const;

private:
    void add(const std::vector<std::string>& cells, const Source& source);

    std::string m_name;
    std::string m_letter;
    std::string m_rows;
    int m_count = 0;
};

} // namespace ebbline::published
