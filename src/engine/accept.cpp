// SPDX-License-Identifier: MIT
// What is let into the simulator, and what counts as solved when it comes out.
#include "accept.h"

#include "ebbline/text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>
#include <sstream>
#include <string_view>
#include <utility>

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

bool isUp(const std::vector<double>& state, std::size_t sample) {
    return state[sample] > 0.5;
}

/// Whether what moves it was there in the last 2 ms, or at the sample before them: a contact takes
/// one on its way.
bool isThere(const Cause& cause, const Solved& solved, std::size_t sample) {
    constexpr double way_s = 2e-3;
    const auto& by = solved.vectors[static_cast<std::size_t>(cause.by)];
    const double slack = 1e-3 * std::max(1.0, std::abs(cause.level));
    const double since_s = solved.time_s[sample] - way_s;
    for (std::size_t i = sample + 1; i-- > 0;) {
        if (cause.above ? by[i] > cause.level - slack : by[i] < cause.level + slack)
            return true;
        if (solved.time_s[i] < since_s)
            return false;
    }
    return false;
}

bool isExplained(const Job& job, const Solved& solved, int state, std::size_t sample) {
    const bool rises = isUp(solved.vectors[static_cast<std::size_t>(state)], sample);
    bool has_causes = false;
    for (const Cause& cause : job.causes) {
        if (cause.state != state || cause.rises != rises)
            continue;
        if (isThere(cause, solved, sample))
            return true;
        has_causes = true;
    }
    return !has_causes;
}

/// The shared library leaves an event on its list that a step has posted which it then takes back;
/// at times it comes true later, and a supply of 12 V counts as one of more than 17. Where that is,
/// the state and the sample at which it has moved.
std::optional<std::pair<int, std::size_t>> findUnexplained(const Job& job, const Solved& solved) {
    for (const Cause& cause : job.causes) {
        const auto& state = solved.vectors[static_cast<std::size_t>(cause.state)];
        for (std::size_t i = 1; i < state.size(); ++i)
            if (isUp(state, i - 1) != isUp(state, i) && !isExplained(job, solved, cause.state, i))
                return std::pair(cause.state, i);
    }
    return std::nullopt;
}

/// The number of an option and its place in the text.
struct Option {
    std::size_t from = 0;
    std::size_t size = 0;
    double value = 0;
};

std::optional<Option> findOption(const std::string& circuit, const std::string& name) {
    const std::string key = " " + name + "=";
    const std::size_t place = circuit.find(key);
    if (place == std::string::npos)
        return std::nullopt;
    const std::size_t from = place + key.size();
    const char* begin = circuit.data() + from;
    double value = 0;
    const auto [end, problem] = std::from_chars(begin, circuit.data() + circuit.size(), value);
    if (problem != std::errc())
        return std::nullopt;
    return Option{from, static_cast<std::size_t>(end - begin), value};
}

std::string withOption(std::string circuit, const Option& option, double value) {
    return circuit.replace(option.from, option.size, text::number(value));
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
    if (const auto found = findUnexplained(job, solved))
        return "'" + job.vectors[static_cast<std::size_t>(found->first)] +
               "' moves without a cause at " + text::number(solved.time_s[found->second]) + " s";
    return "";
}

bool wentAstray(const Job& job, const Solved& solved) {
    return !solved.time_s.empty() && !whyNotSolved(job, solved).empty();
}

std::vector<std::string> otherOrders(const std::string& circuit) {
    std::vector<std::string> orders;
    if (const auto pivots = findOption(circuit, "pivrel"))
        for (const double other : other_pivots)
            orders.push_back(withOption(circuit, *pivots, other));
    return orders;
}

std::vector<std::string> closerOnes(const std::string& circuit) {
    std::vector<std::string> ways;
    if (const auto tolerance = findOption(circuit, "reltol"))
        for (const double times : closer_by)
            ways.push_back(withOption(circuit, *tolerance, times * tolerance->value));
    return ways;
}

} // namespace ebbline::engine
