// SPDX-License-Identifier: MIT
// How fast a long piece of work goes, and how long it will take.
#include "pace.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <cmath>

namespace ebbline::cli {
namespace {

std::string durationWords(double seconds) {
    if (seconds < 100)
        return ebbline::words("{} s", text::fixed(std::ceil(seconds), 0));
    if (seconds < 100 * 60)
        return ebbline::words("{} min", text::fixed(std::ceil(seconds / 60), 0));
    return ebbline::words("{} h", text::fixed(seconds / 3600, 1));
}

} // namespace

std::string Pace::words(std::size_t done, Clock::time_point now) const {
    const double seconds = std::chrono::duration<double>(now - m_begin).count();
    const double made = static_cast<double>(done - m_before);
    if (made == 0 || seconds <= 0)
        return ebbline::words("{} of {}", done, m_all);
    const double rate = made / seconds;
    return ebbline::words("{} of {}, {} a second, {} left",
                          done,
                          m_all,
                          text::fixed(rate, rate < 10 ? 1 : 0),
                          durationWords(static_cast<double>(m_all - done) / rate));
}

} // namespace ebbline::cli
