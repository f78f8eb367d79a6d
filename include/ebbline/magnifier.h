// SPDX-License-Identifier: MIT
// A part of the pictures shown larger: which part, and how much.
#pragma once

#include "ebbline/drawing.h"

namespace ebbline {

class Magnifier {
public:
    /// 1: all of it.
    [[nodiscard]] double factor() const { return m_factor; }
    [[nodiscard]] bool isOn() const { return m_factor > 1; }

    /// Larger by `by`, smaller where that is below 1; what lies at `at` stays there. `area` is
    /// where the pictures stand.
    void zoom(double by, Point at, const Box& area);
    /// The pictures moved by so many pixels, as far as there is something of them.
    void pan(double right, double down, const Box& area);
    /// All of it again.
    void fit() { *this = {}; }

    /// The drawing as seen through it: what lies outside the area is gone, what is cut by its edge
    /// has lost its text.
    void show(Drawing& drawing, const Box& area) const;

private:
    double m_factor = 1;
    Point m_corner; ///< upper left of what is seen, in shares of the area
};

} // namespace ebbline
