// SPDX-License-Identifier: MIT
// A table in a file that grows line by line and can be taken up again after an interruption.
#include "growing_table.h"

#include "ebbline/error.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cerrno>
#include <iostream>
#include <iterator>
#include <system_error>

namespace ebbline::cli {
namespace {

[[noreturn]] void failToWrite(const std::string& path) {
    throw std::system_error(errno, std::generic_category(), words("cannot write '{}'", path));
}

std::string readAll(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

GrowingTable::GrowingTable(const std::string& path,
                           const std::string& content,
                           const std::string& head)
    : m_path(path), m_part(path + ".part") {
    if (m_path == "-") {
        std::cout << head;
        return;
    }
    if (std::filesystem::exists(m_part))
        takeUp(content, head);
    m_file.open(m_part, std::ios::binary | std::ios::app);
    if (!m_file)
        failToWrite(m_part.string());
    if (std::filesystem::file_size(m_part) == 0)
        write(content + "\n" + head);
}

void GrowingTable::takeUp(const std::string& content, const std::string& head) {
    const std::string there = readAll(m_part);
    const std::string begin = content + "\n" + head;
    if (!there.starts_with(begin)) {
        // Interrupted before its head was whole: nothing is lost by beginning again.
        if (begin.starts_with(there)) {
            std::filesystem::resize_file(m_part, 0);
            return;
        }
        throw SceneError({Problem{
            .file = m_part.string(),
            .message = words("was begun with another scene, list of cases or program; delete or "
                             "rename it to begin anew")}});
    }
    const std::size_t whole = there.rfind('\n') + 1;
    m_rows = static_cast<std::size_t>(
        std::count(there.begin() + static_cast<std::ptrdiff_t>(begin.size()), there.end(), '\n'));
    std::filesystem::resize_file(m_part, whole);
}

void GrowingTable::write(const std::string& line) {
    m_file << line << std::flush;
    if (!m_file)
        failToWrite(m_part.string());
}

void GrowingTable::add(const std::string& line) {
    ++m_rows;
    if (m_path == "-")
        std::cout << line << std::flush;
    else
        write(line);
}

void GrowingTable::finish() {
    if (m_path == "-")
        return;
    m_file.close();
    const std::string there = readAll(m_part);
    std::ofstream table(m_path, std::ios::binary);
    table << there.substr(there.find('\n') + 1) << std::flush;
    if (!table)
        failToWrite(m_path);
    std::filesystem::remove(m_part);
}

} // namespace ebbline::cli
