// SPDX-License-Identifier: MIT
// Sheets of paper for a class, written beside the frame loop, which never waits for them.
#pragma once

#include "ebbline/engine.h"
#include "ebbline/handout.h"

#include <filesystem>
#include <future>
#include <optional>
#include <string>

namespace ebbline::desk {

/// The two sheets of one installation: for the class, and with the answers.
class PaperWriter {
public:
    /// `stem` becomes "<stem>-class.html" and "<stem>-answers.html"; files of these names are
    /// written over. While an earlier one is being written nothing happens.
    void write(Installation installation,
               Models models,
               engine::PoolSettings settings,
               HandoutEdition edition,
               std::filesystem::path stem);

    /// Once: what has been written, or why not, in words.
    [[nodiscard]] std::optional<std::string> take();

private:
    std::future<std::string> m_work; ///< its end is awaited when this is destroyed
};

} // namespace ebbline::desk
