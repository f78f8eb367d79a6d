// SPDX-License-Identifier: MIT
// Parts on the plan: how large each is, where its terminals sit, how it is drawn.
#pragma once

#include "ebbline/canvas.h"
#include "ebbline/installation.h"

#include <optional>
#include <string>
#include <vector>

namespace ebbline::drawing {

/// A side of a symbol as the direction that leads out of it.
inline constexpr Point to_right{1, 0};
inline constexpr Point to_left{-1, 0};
inline constexpr Point downwards{0, 1};
inline constexpr Point upwards{0, -1};

/// One terminal of a placed symbol.
struct Port {
    std::string terminal;
    Point at;  ///< on the edge of the box
    Point out; ///< the side
};

struct Symbol {
    const Part* part = nullptr;
    Box box;
    Point wish; ///< where its middle would be to scale
    std::vector<Port> ports;

    [[nodiscard]] const Port* findPort(const std::string& terminal) const;
};

/// Terminals that share a side, in drawing order.
struct PortGroup {
    std::vector<std::string> terminals;
    bool opposite = false; ///< sits opposite the group before it
};

/// Meters and sheet metal have no symbol of their own.
[[nodiscard]] bool hasSymbol(const Part& part);
/// Width and height, in units, of a part whose ports lie left and right.
[[nodiscard]] Point extentOf(const Part& part);
/// How much smaller symbols are drawn where there is little room; a fridge holds text and is not.
[[nodiscard]] double symbolScale(const Box& area, double unit);
[[nodiscard]] std::vector<PortGroup> portGroupsOf(const Part& part);
/// A part that a single conductor goes through: it is turned with its conductor.
[[nodiscard]] bool isInline(const Part& part);

/// What is written inside the box of a fridge.
struct Caption {
    std::vector<TextLine> lines;
};
/// Draws the symbol and marks plus and minus where it has poles.
void drawSymbol(Canvas& canvas, const Symbol& symbol, double unit, const Caption& caption);

} // namespace ebbline::drawing
