// SPDX-License-Identifier: MIT
// One picture at many moments, small: lines of SVG kept once, and each moment as what it changes.
#include "reel.h"

#include <string_view>
#include <unordered_map>
#include <utility>

namespace ebbline::report {
namespace {

using Numbers = std::vector<std::size_t>;

/// What stands between line feeds; behind the last one too, even if that is nothing.
std::vector<std::string> split(std::string_view text) {
    std::vector<std::string> lines;
    for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(end + 1);
    }
    lines.emplace_back(text);
    return lines;
}

class Dictionary {
public:
    explicit Dictionary(std::vector<std::string>& lines) : m_lines(lines) {}

    std::size_t numberOf(const std::string& line) {
        const auto [entry, is_new] = m_numbers.try_emplace(line, m_lines.size());
        if (is_new)
            m_lines.push_back(line);
        return entry->second;
    }

private:
    std::vector<std::string>& m_lines;
    std::unordered_map<std::string, std::size_t> m_numbers;
};

/// Lines from the two places on that are the same in both.
std::size_t commonRun(const Numbers& before, std::size_t i, const Numbers& after, std::size_t j) {
    std::size_t length = 0;
    while (i + length < before.size() && j + length < after.size() &&
           before[i + length] == after[j + length])
        ++length;
    return length;
}

/// The nearest pair of places from which on both have a line in common; the ends if there is none.
std::pair<std::size_t, std::size_t>
findMeeting(const Numbers& before, std::size_t i, const Numbers& after, std::size_t j) {
    const std::size_t most = before.size() - i + after.size() - j;
    for (std::size_t distance = 1; distance <= most; ++distance)
        for (std::size_t gone = 0; gone <= distance; ++gone) {
            const std::size_t come = distance - gone;
            if (i + gone < before.size() && j + come < after.size() &&
                before[i + gone] == after[j + come])
                return {i + gone, j + come};
        }
    return {before.size(), after.size()};
}

Numbers difference(const Numbers& before, const Numbers& after) {
    Numbers edits;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < before.size() || j < after.size()) {
        const std::size_t same = commonRun(before, i, after, j);
        const auto [next_i, next_j] = findMeeting(before, i + same, after, j + same);
        edits.insert(edits.end(), {same, next_i - i - same, next_j - j - same});
        for (std::size_t k = j + same; k < next_j; ++k)
            edits.push_back(after[k]);
        i = next_i;
        j = next_j;
    }
    return edits;
}

Numbers changed(const Numbers& before, const Numbers& edits) {
    Numbers after;
    std::size_t at = 0;
    for (std::size_t i = 0; i + 2 < edits.size(); i += 3 + edits[i + 2]) {
        for (std::size_t k = 0; k < edits[i]; ++k)
            after.push_back(before.at(at++));
        at += edits[i + 1];
        for (std::size_t k = 0; k < edits[i + 2]; ++k)
            after.push_back(edits.at(i + 3 + k));
    }
    return after;
}

} // namespace

Reel encode(std::span<const std::string> frames) {
    Reel reel;
    Dictionary dictionary(reel.lines);
    Numbers before;
    for (const std::string& frame : frames) {
        Numbers after;
        for (const std::string& line : split(frame))
            after.push_back(dictionary.numberOf(line));
        reel.edits.push_back(difference(before, after));
        before = std::move(after);
    }
    return reel;
}

std::vector<std::string> decode(const Reel& reel) {
    std::vector<std::string> frames;
    Numbers numbers;
    for (const Numbers& edits : reel.edits) {
        numbers = changed(numbers, edits);
        std::string& frame = frames.emplace_back();
        for (std::size_t i = 0; i < numbers.size(); ++i)
            frame.append(i == 0 ? "" : "\n").append(reel.lines.at(numbers[i]));
    }
    return frames;
}

} // namespace ebbline::report
