// SPDX-License-Identifier: MIT
// Computed values beside published ones: a section of tests/published.md, row by row.
#include "published.h"

#include "marked.h"

#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

namespace ebbline::published {
namespace {

std::string nameOf(Certainty certainty) {
    return certainty == Certainty::Read     ? "read there"
           : certainty == Certainty::Memory ? "from memory"
                                            : "derived";
}

double amountOf(const Tolerance& tolerance, double expected) {
    return tolerance.is_share ? tolerance.amount * std::abs(expected) : tolerance.amount;
}

/// With one decimal more than the tolerance has, at most six.
std::string rounded(double value, double tolerance) {
    const double decimals = std::clamp(std::ceil(-std::log10(tolerance)) + 1, 0.0, 6.0);
    return text::fixed(value, static_cast<int>(decimals));
}

/// Exact values to six digits, without the zeros behind.
std::string shortest(double value) {
    if (value == 0)
        return "0";
    const double scale = std::pow(10, 6 - std::floor(std::log10(std::abs(value))));
    return text::number(std::round(value * scale) / scale);
}

bool isExact(const Tolerance& tolerance) {
    return tolerance.is_share && tolerance.amount <= 1e-6;
}

std::string withUnit(const std::string& value, const std::string& unit) {
    return unit.empty() ? value : value + " " + unit;
}

std::string written(const Tolerance& tolerance, const std::string& unit) {
    if (!tolerance.is_share && tolerance.amount < 1e-3)
        return withUnit(
            text::fixed(tolerance.amount,
                        static_cast<int>(std::ceil(-std::log10(tolerance.amount) - 1e-9))),
            unit);
    if (!tolerance.is_share)
        return withUnit(text::number(tolerance.amount), unit);
    if (isExact(tolerance))
        return "exact";
    return text::number(std::round(tolerance.amount * 1e8) / 1e6) + " %";
}

} // namespace

void Comparison::add(double computed,
                     double expected,
                     const Tolerance& tolerance,
                     const std::string& cell) {
    ++cells;
    const double difference = std::abs(computed - expected);
    if (expected != 0)
        worst = std::max(worst, difference / std::abs(expected));
    // A value that is not a number is off, too.
    if (difference <= amountOf(tolerance, expected) * (1 + 1e-9))
        return;
    if (off++ == 0)
        where = cell + ": " + text::number(computed) + " for " + text::number(expected);
}

Sheet::Sheet(std::string name, std::string letter)
    : m_name(std::move(name)), m_letter(std::move(letter)) {
    m_rows = "| | what | computed | expected | tolerance | source | certainty |\n"
             "|---|---|---|---|---|---|---|\n";
}

void Sheet::near(const Quantity& what,
                 double computed,
                 double expected,
                 const Tolerance& tolerance,
                 const Source& source) {
    const double amount = amountOf(tolerance, expected);
    CAPTURE(what.what, computed, expected, amount);
    CHECK(std::abs(computed - expected) <= amount);
    add({what.what,
         withUnit(isExact(tolerance) ? shortest(computed) : rounded(computed, amount), what.unit),
         withUnit(text::number(expected), what.unit),
         written(tolerance, what.unit)},
        source);
}

void Sheet::between(
    const Quantity& what, double computed, double least, double most, const Source& source) {
    CAPTURE(what.what, computed, least, most);
    CHECK(least <= computed);
    CHECK(computed <= most);
    add({what.what,
         withUnit(rounded(computed, (most - least) / 100), what.unit),
         text::number(least) + " to " + withUnit(text::number(most), what.unit),
         "-"},
        source);
}

void Sheet::holds(const std::string& what,
                  bool is_true,
                  const std::string& figures,
                  const std::string& expected,
                  const Source& source) {
    CAPTURE(what, figures);
    CHECK(is_true);
    add({what, figures, expected, "-"}, source);
}

void Sheet::table(const std::string& what,
                  const Comparison& comparison,
                  const Tolerance& tolerance,
                  const Source& source) {
    CAPTURE(what, comparison.where);
    CHECK(comparison.cells > 0);
    CHECK(comparison.off == 0);
    const std::string cells = std::to_string(comparison.cells);
    add({what,
         std::to_string(comparison.cells - comparison.off) + " of " + cells + ", worst " +
             text::fixed(comparison.worst * 100, 3) + " %",
         cells + " cells",
         written(tolerance, "")},
        source);
}

void Sheet::keep() const {
    CHECK(marked::section("tests/published.md", m_name, m_rows) == m_rows);
}

void Sheet::keepMeasured() const {
    constexpr std::size_t computed = 2;
    const std::string kept = marked::section("tests/published.md", m_name, m_rows);
    CHECK(marked::withoutColumn(kept, computed) == marked::withoutColumn(m_rows, computed));
}

void Sheet::add(const std::vector<std::string>& cells, const Source& source) {
    m_rows += "| " + m_letter + std::to_string(++m_count) + " |";
    for (const std::string& cell : cells)
        m_rows += " " + cell + " |";
    m_rows += " " + source.text + " | " + nameOf(source.certainty) + " |\n";
}

} // namespace ebbline::published
