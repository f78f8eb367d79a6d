// SPDX-License-Identifier: MIT
// Sampled curves as lines in pixels.
#include "curve.h"

#include "geometry.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {

std::vector<Point> thinned(std::span<const double> time_s,
                           std::span<const double> values,
                           const Scale& across,
                           const Scale& up) {
    std::vector<Point> points;
    const auto flush = [&](std::size_t first, std::size_t last) {
        const auto part = values.subspan(first, last - first);
        auto least =
            first + static_cast<std::size_t>(std::ranges::min_element(part) - part.begin());
        auto most = first + static_cast<std::size_t>(std::ranges::max_element(part) - part.begin());
        if (least > most)
            std::swap(least, most);
        std::size_t before = values.size();
        for (const std::size_t i : {first, least, most, last - 1})
            if (i != before) {
                points.push_back({across.at(time_s[i]), up.at(values[i])});
                before = i;
            }
    };
    std::size_t first = time_s.size();
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        if (time_s[i] < across.low || time_s[i] > across.high)
            continue;
        if (first < i && std::floor(across.at(time_s[first])) != std::floor(across.at(time_s[i]))) {
            flush(first, i);
            first = i;
        }
        first = std::min(first, i);
        if (i + 1 == time_s.size() || time_s[i + 1] > across.high)
            flush(first, i + 1);
    }
    return points;
}

std::vector<std::vector<Point>> clipped(std::span<const Point> line, double top, double bottom) {
    std::vector<std::vector<Point>> pieces;
    const auto add = [&](Point from, Point to) {
        if (pieces.empty() || !(pieces.back().back() == from))
            pieces.push_back({from});
        pieces.back().push_back(to);
    };
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Point one = line[i - 1];
        const Point other = line[i];
        const double rise = other.y - one.y;
        // Shares of the way at which it enters and leaves the strip.
        double enter = 0;
        double leave = 1;
        if (std::abs(rise) > 1e-9) {
            const double at_top = (top - one.y) / rise;
            const double at_bottom = (bottom - one.y) / rise;
            enter = std::max(0.0, std::min(at_top, at_bottom));
            leave = std::min(1.0, std::max(at_top, at_bottom));
        } else if (one.y < top || one.y > bottom) {
            continue;
        }
        if (enter < leave)
            add(enter > 0 ? between(one, other, enter) : one,
                leave < 1 ? between(one, other, leave) : other);
    }
    return pieces;
}

} // namespace ebbline::drawing
