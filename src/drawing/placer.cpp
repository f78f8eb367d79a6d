// SPDX-License-Identifier: MIT
// Tries places in rings around the thing until one is free.
#include "placer.h"

#include "geometry.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

constexpr double step = 6;         // from ring to ring
constexpr double leader_from = 16; // a text farther away than this gets a line to it
constexpr double leader_gap = 2;   // between the line and its text
constexpr double leader_width = 0.8;

/// Box of the block beside the thing: `away` from it towards `side`, slid along it by `slide` from
/// -1 to 1.
Box beside(const Wish& wish, const Box& size, Point side, double away, double slide) {
    const Point middle = wish.about.middle();
    Box box{middle.x - size.width / 2, middle.y - size.height / 2, size.width, size.height};
    if (side.x != 0) {
        box.x = side.x > 0 ? wish.about.right() + away : wish.about.x - away - size.width;
        box.y += slide * (wish.about.height + size.height) / 2;
    } else {
        box.y = side.y > 0 ? wish.about.bottom() + away : wish.about.y - away - size.height;
        box.x += slide * (wish.about.width + size.width) / 2;
    }
    return box;
}

Align alignFor(Point side) {
    return side.x > 0 ? Align::Left : side.x < 0 ? Align::Right : Align::Middle;
}

/// The nearest points of two boxes.
std::pair<Point, Point> nearest(const Box& one, const Box& other) {
    const auto pick = [](double low, double high, double other_low, double other_high) {
        if (high < other_low)
            return std::pair(high, other_low);
        if (other_high < low)
            return std::pair(low, other_high);
        const double shared = (std::max(low, other_low) + std::min(high, other_high)) / 2;
        return std::pair(shared, shared);
    };
    const auto [x_one, x_other] = pick(one.x, one.right(), other.x, other.right());
    const auto [y_one, y_other] = pick(one.y, one.bottom(), other.y, other.bottom());
    return {{x_one, y_one}, {x_other, y_other}};
}

/// Whether the block may stand there; where it is far off, whether a line can lead to it.
bool fits(const Canvas& canvas, const Wish& wish, const Box& box) {
    if (!wish.within.contains(box) || !canvas.isFree(box.grown(wish.gap)))
        return false;
    const auto [from, to] = nearest(wish.about, box.grown(leader_gap));
    return distance(from, to) <= leader_from || !canvas.crosses(from, to, wish.about);
}

void put(Canvas& canvas, const Wish& wish, const Box& box, Point side) {
    const auto [from, to] = nearest(wish.about, box.grown(leader_gap));
    canvas.write(wish.lines, box, alignFor(side));
    if (distance(from, to) > leader_from)
        canvas.line({from, to}, {Ink::Soft, leader_width, {}});
}

} // namespace

std::optional<Box> place(Canvas& canvas, const Wish& wish) {
    const Box size = sizeOf(wish.lines);
    const int rings = static_cast<int>(wish.reach / step) + 1;
    for (int ring = 0; ring < rings; ++ring)
        for (const Point side : wish.sides)
            for (const double slide : {0.0, -0.25, 0.25, -0.5, 0.5, -0.75, 0.75, -1.0, 1.0}) {
                const double away = wish.gap + 1 + ring * step;
                const Box box = beside(wish, size, side, away, slide);
                if (!fits(canvas, wish, box))
                    continue;
                put(canvas, wish, box, side);
                return box;
            }
    return std::nullopt;
}

std::optional<Box>
placeFirst(Canvas& canvas, Wish wish, std::span<const std::vector<TextLine>> wordings) {
    for (const std::vector<TextLine>& wording : wordings) {
        wish.lines = wording;
        if (const auto box = place(canvas, wish))
            return box;
    }
    return std::nullopt;
}

} // namespace ebbline::drawing
