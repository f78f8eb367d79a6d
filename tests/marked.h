// SPDX-License-Identifier: MIT
// A section between two marks of a file, written by a test: <!-- name: begin --> ... end.
#pragma once

#include <string>

namespace ebbline::marked {

/// What stands in the section, after writing `made` there where EBBLINE_WRITE asks for that. Path
/// from the root of the sources. Throws when the file has no such section.
[[nodiscard]] std::string
section(const std::string& path, const std::string& name, const std::string& made);

/// The rows of a table without one of their cells, counted from 0.
[[nodiscard]] std::string withoutColumn(const std::string& rows, std::size_t column);

} // namespace ebbline::marked
