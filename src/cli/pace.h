// SPDX-License-Identifier: MIT
// How fast a long piece of work goes, and how long it will take.
#pragma once

#include <chrono>
#include <cstddef>
#include <string>

namespace ebbline::cli {

class Pace {
public:
    using Clock = std::chrono::steady_clock;

    Pace(std::size_t done, std::size_t all, Clock::time_point begin)
        : m_before(done), m_all(all), m_begin(begin) {}

    /// "1200 of 10000, 85 a second, 2 min left", in the reader's language.
    [[nodiscard]] std::string words(std::size_t done, Clock::time_point now) const;

private:
    std::size_t m_before; ///< done when it began
    std::size_t m_all;
    Clock::time_point m_begin;
};

} // namespace ebbline::cli
