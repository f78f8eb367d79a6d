// SPDX-License-Identifier: MIT
// What can be asked "what if" of an installation by one key up and one key down.
#pragma once

#include "ebbline/installation.h"
#include "ebbline/models.h"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace ebbline {

enum class HandleKind { Area, Length, Charge, Charging, Joint, Warmth };
inline constexpr std::array all_handles{HandleKind::Area,
                                        HandleKind::Length,
                                        HandleKind::Charge,
                                        HandleKind::Charging,
                                        HandleKind::Joint,
                                        HandleKind::Warmth};

/// The keys that turn a handle, one row of the keyboard above the other.
struct HandleKeys {
    char up = 0;
    char down = 0;
};

/// One position of a handle.
struct Rung {
    std::string text;            ///< in words: "4 mm²"
    std::vector<Change> changes; ///< none where it is as drawn
};

/// A row of positions, from little to much.
struct Handle {
    HandleKind kind = HandleKind::Area;
    std::string on; ///< id of the run, part or joint it turns; empty: several, or the surroundings
    std::vector<Rung> rungs;
    std::size_t drawn = 0; ///< the rung that is as drawn
    std::size_t at = 0;

    [[nodiscard]] bool isTurned() const { return at != drawn; }
    /// Up or down by one; false at the end of the row.
    bool turn(int direction);
};

namespace desk {

/// The handles of an installation as it stands: of its cables the one that holds most of the supply
/// loop's resistance, of its joints the worst. What it has nothing of has no handle.
[[nodiscard]] std::vector<Handle> findHandles(const Installation& installation,
                                              const Catalogues& catalogues);

/// What all of them change together.
[[nodiscard]] std::vector<Change> changesOf(const std::vector<Handle>& handles);

[[nodiscard]] HandleKeys keysOf(HandleKind kind);

/// What a handle is called: "Cable", "Run length, one way".
[[nodiscard]] std::string nameOf(HandleKind kind);

} // namespace desk
} // namespace ebbline
