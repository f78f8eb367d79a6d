// SPDX-License-Identifier: MIT
// A section between two marks of a file, written by a test: <!-- name: begin --> ... end.
#include "marked.h"

#include "ebbline/file.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace ebbline::marked {

std::string section(const std::string& path, const std::string& name, const std::string& made) {
    const std::string file = std::string(EBBLINE_SOURCE_DIR) + "/" + path;
    std::string text = file::readBytes(file);
    const std::string begin = "<!-- " + name + ": begin -->\n";
    const std::size_t mark = text.find(begin);
    const std::size_t to = text.find("<!-- " + name + ": end -->");
    if (mark == std::string::npos || to == std::string::npos)
        throw std::runtime_error(path + " has no section " + name);
    const std::size_t from = mark + begin.size();
    if (std::getenv("EBBLINE_WRITE") == nullptr)
        return text.substr(from, to - from);
    std::ofstream(file, std::ios::binary) << text.replace(from, to - from, made);
    return made;
}

std::string withoutColumn(const std::string& rows, std::size_t column) {
    std::istringstream lines(rows);
    std::string out;
    for (std::string row; std::getline(lines, row);) {
        std::size_t begin = 0;
        for (std::size_t i = 0; i < column && begin != std::string::npos; ++i)
            begin = row.find(" | ", begin + (i > 0 ? 3 : 0));
        const std::size_t end = begin == std::string::npos ? begin : row.find(" |", begin + 3);
        out += (end == std::string::npos ? row : row.erase(begin, end - begin)) + "\n";
    }
    return out;
}

} // namespace ebbline::marked
