// SPDX-License-Identifier: MIT
// What is let into the simulator, and what counts as solved when it comes out.
#include "accept.h"

#include "ebbline/text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <sstream>
#include <string_view>

namespace ebbline::engine {
namespace {

constexpr std::array<std::string_view, 12> plain_cards{".options",
                                                       ".option",
                                                       ".save",
                                                       ".tran",
                                                       ".param",
                                                       ".model",
                                                       ".subckt",
                                                       ".ends",
                                                       ".if",
                                                       ".else",
                                                       ".endif",
                                                       ".end"};

std::string firstWord(const std::string& line) {
    std::istringstream text(line);
    std::string word;
    text >> word;
    std::ranges::transform(word, word.begin(), [](unsigned char letter) {
        return static_cast<char>(std::tolower(letter));
    });
    return word;
}

bool isPlain(const std::string& word) {
    if (word.starts_with("*#") || word.starts_with("*ng_script"))
        return false; // comments that are commands
    return !word.starts_with('.') || std::ranges::find(plain_cards, word) != plain_cards.end();
}

bool reachesEnd(const Job& job, const std::vector<double>& time_s) {
    return std::abs(time_s.back() - job.stop_s) <= 1e-9 * job.stop_s;
}

bool isRising(const std::vector<double>& time_s) {
    return std::ranges::adjacent_find(time_s, std::greater_equal<>{}) == time_s.end();
}

bool isFinite(const std::vector<double>& values) {
    return std::ranges::all_of(values, [](double value) { return std::isfinite(value); });
}

/// First potential beyond what any source can drive; -1 when all are within.
int findRunaway(const Job& job, const Solved& solved) {
    for (const int index : job.potentials)
        for (const double value : solved.vectors[static_cast<std::size_t>(index)])
            if (std::abs(value) > 2 * job.highest_v)
                return index;
    return -1;
}

} // namespace

std::string whyRefused(const std::string& circuit) {
    std::istringstream text(circuit);
    std::string line;
    std::getline(text, line); // the title is never a card, but a command there would still be one
    if (!isPlain(firstWord(line)))
        return "refused: the title is a command";
    while (std::getline(text, line))
        if (const std::string word = firstWord(line); !isPlain(word))
            return "refused: '" + text::escapeControls(word) + "' is no part of a plain circuit";
    return "";
}

std::string whyNotSolved(const Job& job, const Solved& solved) {
    const std::size_t samples = solved.time_s.size();
    if (samples == 0)
        return "the simulator produced no time vector";
    if (solved.vectors.size() != job.vectors.size())
        return "there are " + std::to_string(solved.vectors.size()) + " vectors, expected " +
               std::to_string(job.vectors.size());
    for (std::size_t i = 0; i < solved.vectors.size(); ++i)
        if (solved.vectors[i].size() != samples)
            return "the simulator produced no vector '" + job.vectors[i] + "'";
    if (!isFinite(solved.time_s) || !std::ranges::all_of(solved.vectors, isFinite))
        return "a value is not finite";
    if (!reachesEnd(job, solved.time_s))
        return "the run ended at " + text::number(solved.time_s.back()) + " s of " +
               text::number(job.stop_s) + " s";
    if (!isRising(solved.time_s))
        return "time does not rise";
    if (const int runaway = findRunaway(job, solved); runaway >= 0)
        return "'" + job.vectors[static_cast<std::size_t>(runaway)] +
               "' lies beyond twice the highest source";
    return "";
}

bool wentAstray(const Job& job, const Solved& solved) {
    return !solved.time_s.empty() && !whyNotSolved(job, solved).empty();
}

std::optional<std::string> withPivots(const std::string& circuit, const std::string& pivots) {
    const std::string key = " pivrel=";
    const std::size_t place = circuit.find(key);
    if (place == std::string::npos)
        return std::nullopt;
    const std::size_t from = place + key.size();
    std::string other = circuit;
    return other.replace(from, circuit.find_first_of(" \n", from) - from, pivots);
}

} // namespace ebbline::engine
