// SPDX-License-Identifier: MIT
// From a text to a TOML table; what holds an error of syntax is left out and the rest read again.
#include "parse.h"

#include "complaint.h"
#include "scan.h"

#include "ebbline/words.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace ebbline::file {
namespace {

constexpr int most_errors = 20;
constexpr std::size_t most_parsed = 4 * largest_file; // again and again: a large file less often

/// Calls `visit(place of the letter)` for every letter of the lines [first, end).
template <class Visit>
void eachLetter(std::string_view text, int first, int end, const Visit& visit) {
    int line = 1;
    for (std::size_t at = 0; at < text.size() && line < end; ++at)
        if (text[at] == '\n')
            ++line;
        else if (line >= first)
            visit(at);
}

/// The text before a line.
std::string_view before(std::string_view text, int line) {
    std::size_t end = 0;
    for (int number = 1; number < line && end < text.size(); ++number)
        end = std::min(text.find('\n', end), text.size() - 1) + 1;
    return text.substr(0, end);
}

bool canParse(std::string_view text) {
    try {
        static_cast<void>(toml::parse(text));
        return true;
    } catch (const toml::parse_error&) {
        return false;
    }
}

/// A text of which parts were left out may read otherwise than before.
bool fitsLimits(std::string_view text) {
    Problems problems("", text);
    checkLimits(text, problems);
    return !problems.any();
}

class Parser {
public:
    Parser(std::string_view text, Problems& problems)
        : m_rest(text), m_stretches(findStretches(text)), m_problems(problems) {}

    std::optional<Parsed> parse() {
        std::size_t parsed = 0;
        for (int tries = 0; tries < most_errors && parsed < most_parsed && fitsLimits(m_rest);
             ++tries, parsed += m_rest.size())
            try {
                m_parsed.table = toml::parse(std::string_view(m_rest));
                return std::move(m_parsed);
            } catch (const toml::parse_error& error) {
                if (!leaveOut(error))
                    break;
            }
        return std::nullopt;
    }

private:
    /// Reports the error and leaves out what holds it; whether there was anything to leave out.
    bool leaveOut(const toml::parse_error& error) {
        const bool is_at_end = error.description().find("end-of-file") != std::string_view::npos;
        const auto opened = is_at_end ? findUnclosed(m_rest) : std::nullopt;
        const std::string complaint = complaintOf(error.description());
        m_problems.add(error.source(),
                       opened ? words("{}, a text begun at line {}", complaint, *opened)
                              : complaint);
        const std::size_t index = findBlamed(
            opened.value_or(static_cast<int>(error.source().begin.line)), opened.has_value());
        if (!opened)
            return leaveOut(index);
        // Whatever was never closed holds all that is behind it.
        bool is_any = false;
        for (std::size_t i = index; i < m_stretches.size(); ++i)
            is_any |= leaveOut(i);
        return is_any;
    }

    /// The stretch that an error at that line belongs to. An error at a stretch's very first line
    /// may belong to the one before it, which was not closed.
    [[nodiscard]] std::size_t findBlamed(int line, bool is_opening) const {
        const auto next = std::ranges::upper_bound(m_stretches, line, {}, &Stretch::line);
        const auto index = static_cast<std::size_t>(next - m_stretches.begin()) - 1;
        if (index > 0 && !is_opening && m_stretches[index].line == line &&
            !canParse(before(m_rest, line)))
            return index - 1;
        return index;
    }

    /// Blanks the stretch, so that later lines keep their numbers; whether it held anything.
    bool leaveOut(std::size_t index) {
        const Stretch& stretch = m_stretches[index];
        const int end = index + 1 < m_stretches.size() ? m_stretches[index + 1].line
                                                       : std::numeric_limits<int>::max();
        bool is_any = false;
        eachLetter(m_rest, stretch.line, end, [&](std::size_t at) {
            is_any |= m_rest[at] != ' ';
            m_rest[at] = ' ';
        });
        m_parsed.lost.insert(stretch.name);
        if (!stretch.id.empty())
            m_parsed.lost_ids.emplace(stretch.id, placeOf(stretch));
        return is_any;
    }

    static toml::source_region placeOf(const Stretch& stretch) {
        const toml::source_position place{static_cast<toml::source_index>(stretch.id_line), 1};
        return {place, place, nullptr};
    }

    std::string m_rest;
    std::vector<Stretch> m_stretches;
    Problems& m_problems;
    Parsed m_parsed;
};

} // namespace

std::optional<Parsed> parse(std::string_view text, Problems& problems) {
    checkLimits(text, problems);
    return problems.any() ? std::nullopt : Parser(text, problems).parse();
}

} // namespace ebbline::file
