// SPDX-License-Identifier: MIT
// One line on the terminal that says what is being done.
#include "progress.h"

#include <fmt/core.h>
#include <unistd.h>

#include <iostream>

namespace ebbline::cli {

Progress::Progress() : m_is_terminal(isatty(STDERR_FILENO) == 1) {}

void Progress::show(const std::string& step) {
    if (!m_is_terminal)
        return;
    clear();
    const std::string line = step + " ...";
    std::cerr << line << std::flush;
    m_shown = line.size();
}

void Progress::clear() {
    if (m_shown > 0)
        std::cerr << '\r' << std::string(m_shown, ' ') << '\r' << std::flush;
    m_shown = 0;
}

} // namespace ebbline::cli
