// SPDX-License-Identifier: MIT
// One line on the terminal that says what is being done; nothing where standard error is no
// terminal.
#pragma once

#include <cstddef>
#include <string>

namespace ebbline::cli {

class Progress {
public:
    Progress();
    ~Progress() { clear(); }
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    void show(const std::string& step);
    void clear();

private:
    bool m_is_terminal;
    std::size_t m_shown = 0; ///< characters to blank out
};

} // namespace ebbline::cli
