// SPDX-License-Identifier: MIT
// Starts of what is being drawn right now: the newest wins, a draft first, then the final one, then
// what would make it start.
#pragma once

#include "ebbline/remedies.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace ebbline::study {

/// What became of one edit.
struct LiveAnswer {
    std::uint64_t edit = 0; ///< the number it was asked with
    /// Draft or final, as its accuracy says; or why there is none, in the reader's language.
    std::variant<Examination, std::string> found;
    std::vector<Remedy> remedies; ///< none before it is whole
    bool is_whole = false;        ///< with its loop budget and its remedies: everything is known
};

/// Runs on a thread of its own with workers of its own; nothing here waits for them. Of what is
/// asked while a draft runs only the newest is kept; a final run, and the search for what would
/// make it start, are given up for a newer edit. What was run before is remembered.
class Live {
public:
    Live(const Models& models, engine::PoolSettings settings);
    ~Live();
    Live(const Live&) = delete;
    Live& operator=(const Live&) = delete;

    /// Asks for the start of `installation`. Edits are numbered upwards.
    void ask(std::uint64_t edit, Installation installation);
    /// The newest answer that was not taken yet.
    [[nodiscard]] std::optional<LiveAnswer> take();
    /// Whether a final start is still to come: what is shown is old, or a draft.
    [[nodiscard]] bool isBusy() const;

private:
    class Lane;
    std::unique_ptr<Lane> m_lane;
};

} // namespace ebbline::study
