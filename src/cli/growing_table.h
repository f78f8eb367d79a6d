// SPDX-License-Identifier: MIT
// A table in a file that grows line by line and can be taken up again after an interruption.
#pragma once

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <string>

namespace ebbline::cli {

/// Until it is whole it stands in "<path>.part", below a line that says what it is a table of. For
/// the path "-" every line goes to standard output, and nothing can be taken up.
class GrowingTable {
public:
    /// Takes up what is there of the same `content`, a half line at its end aside. Throws
    /// SceneError where the file there is of something else, std::system_error where it cannot be
    /// written.
    GrowingTable(const std::string& path, const std::string& content, const std::string& head);

    [[nodiscard]] std::size_t rows() const { return m_rows; } ///< without the head
    /// Adds a whole line, which ends with its line feed.
    void add(const std::string& line);
    /// Gives the table its name.
    void finish();

private:
    void takeUp(const std::string& content, const std::string& head);
    void write(const std::string& line);

    std::string m_path;
    std::filesystem::path m_part;
    std::ofstream m_file;
    std::size_t m_rows = 0;
};

} // namespace ebbline::cli
