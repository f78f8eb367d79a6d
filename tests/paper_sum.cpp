// SPDX-License-Identifier: MIT
// A printed sum worked out from its text, as far as its printed digits go.
#include "paper_sum.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace ebbline {
namespace {

/// Lengths and resistances lose the zeros at their end: they stand for so many decimals.
constexpr int stated_decimals = 3;

int decimalsOf(const std::string& number) {
    const std::size_t point = number.find('.');
    return point == std::string::npos ? 0 : static_cast<int>(number.size() - point - 1);
}

Interval around(const std::string& number, int decimals) {
    char* end = nullptr;
    const double value = std::strtod(number.c_str(), &end);
    if (number.empty() || end != number.c_str() + number.size())
        throw std::runtime_error("no number: '" + number + "'");
    const double half = 0.5 * std::pow(10.0, -decimals) * (1 + 1e-9);
    return {value - half, value + half};
}

std::vector<std::string> split(const std::string& text, const std::string& at) {
    std::vector<std::string> pieces;
    std::size_t from = 0;
    for (std::size_t to = text.find(at); to != std::string::npos; to = text.find(at, from)) {
        pieces.push_back(text.substr(from, to - from));
        from = to + at.size();
    }
    pieces.push_back(text.substr(from));
    return pieces;
}

/// One factor with its unit: "7.98 mohm/m", "1.04 (30 °C)".
Interval readFactor(const std::string& text) {
    std::istringstream words(text);
    std::string number;
    std::string unit;
    words >> number >> unit;
    if (unit == "A")
        return around(number, decimalsOf(number));
    const Interval value = around(number, std::max(decimalsOf(number), stated_decimals));
    const bool is_milli = unit == "mohm" || unit == "mohm/m";
    if (!is_milli && unit != "m" && !unit.starts_with("("))
        throw std::runtime_error("no unit of a factor: '" + text + "'");
    return is_milli ? value * Interval{1e-3, 1e-3} : value;
}

Interval readVolts(const std::string& text) {
    const std::size_t end = text.find(" V");
    if (end == std::string::npos)
        throw std::runtime_error("no volts: '" + text + "'");
    const std::string number = text.substr(0, end);
    return around(number, decimalsOf(number));
}

} // namespace

Interval operator+(const Interval& one, const Interval& other) {
    return {one.low + other.low, one.high + other.high};
}

Interval operator*(const Interval& one, const Interval& other) {
    const auto [low, high] = std::minmax(
        {one.low * other.low, one.low * other.high, one.high * other.low, one.high * other.high});
    return {low, high};
}

PaperSum readPaperSum(const std::string& text) {
    if (text == "no current")
        return {.no_current = true};
    const std::vector<std::string> sides = split(text, " = ");
    if (sides.size() != 2)
        throw std::runtime_error("no sum: '" + text + "'");
    PaperSum sum{.product = {1, 1}};
    for (const std::string& factor : split(sides[0], " x "))
        sum.product = sum.product * readFactor(factor);
    const std::vector<std::string> results = split(sides[1], ", and ");
    sum.result = readVolts(results[0]);
    if (results.size() == 2)
        sum.changing = readVolts(results[1]);
    return sum;
}

} // namespace ebbline
