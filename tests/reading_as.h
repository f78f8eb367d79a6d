// SPDX-License-Identifier: MIT
// Reads as somebody for as long as it lives.
#pragma once

#include "ebbline/words.h"

#include <utility>

namespace ebbline {

class ReadingAs {
public:
    explicit ReadingAs(Reader reader) { setReader(std::move(reader)); }
    ~ReadingAs() { setReader({}); }
    ReadingAs(const ReadingAs&) = delete;
    ReadingAs& operator=(const ReadingAs&) = delete;
};

} // namespace ebbline
