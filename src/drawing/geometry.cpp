// SPDX-License-Identifier: MIT
// Points, lines and polygons: distances, crossings, parallels, hatch.
#include "geometry.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ebbline {

bool Box::contains(const Box& other) const {
    return other.x >= x && other.y >= y && other.right() <= right() && other.bottom() <= bottom();
}

bool Box::overlaps(const Box& other) const {
    return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
}

Box Box::grown(double margin) const {
    return {x - margin, y - margin, width + 2 * margin, height + 2 * margin};
}

namespace drawing {
namespace {

constexpr double tiny = 1e-9;

/// Unit vector from one point to another; nothing sensible where they are one.
Point direction(Point from, Point to) {
    const double length = std::max(distance(from, to), tiny);
    return {(to.x - from.x) / length, (to.y - from.y) / length};
}

/// Narrows [low, high] to the part of a piece on which start + share * step stays in [least, most].
void clip(double start, double step, double least, double most, double& low, double& high) {
    if (std::abs(step) < tiny) {
        if (start < least || start > most)
            high = low - 1;
        return;
    }
    const double one = (least - start) / step;
    const double other = (most - start) / step;
    low = std::max(low, std::min(one, other));
    high = std::min(high, std::max(one, other));
}

} // namespace

double distance(Point one, Point other) {
    return std::hypot(other.x - one.x, other.y - one.y);
}

Point between(Point one, Point other, double share) {
    return {one.x + share * (other.x - one.x), one.y + share * (other.y - one.y)};
}

bool touches(Point from, Point to, double half_width, const Box& box) {
    const Box room = box.grown(half_width);
    double low = 0;
    double high = 1;
    clip(from.x, to.x - from.x, room.x, room.right(), low, high);
    clip(from.y, to.y - from.y, room.y, room.bottom(), low, high);
    return low <= high;
}

double lengthOf(std::span<const Point> line) {
    double length = 0;
    for (std::size_t i = 1; i < line.size(); ++i)
        length += distance(line[i - 1], line[i]);
    return length;
}

std::vector<Point> pieceOf(std::span<const Point> line, double from, double to) {
    std::vector<Point> piece;
    double along = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double length = distance(line[i - 1], line[i]);
        const double first = std::clamp(from - along, 0.0, length);
        const double last = std::clamp(to - along, 0.0, length);
        if (last > first) {
            if (piece.empty())
                piece.push_back(between(line[i - 1], line[i], first / length));
            piece.push_back(between(line[i - 1], line[i], last / length));
        }
        along += length;
    }
    return piece;
}

std::vector<Point> parallel(std::span<const Point> line, double first, double last) {
    std::vector<Point> side;
    const double whole = std::max(lengthOf(line), tiny);
    double along = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (i > 0)
            along += distance(line[i - 1], line[i]);
        const double offset = first + (last - first) * along / whole;
        const Point before = direction(line[i > 0 ? i - 1 : i], line[i > 0 ? i : i + 1]);
        const Point after = i + 1 < line.size() ? direction(line[i], line[i + 1]) : before;
        const Point normal{-(before.y + after.y) / 2, (before.x + after.x) / 2};
        const double square = std::max(normal.x * normal.x + normal.y * normal.y, 0.1);
        side.push_back(
            {line[i].x + offset * normal.x / square, line[i].y + offset * normal.y / square});
    }
    return side;
}

std::vector<Point> band(std::span<const Point> line, double first, double last) {
    std::vector<Point> edge = parallel(line, first / 2, last / 2);
    const std::vector<Point> other = parallel(line, -first / 2, -last / 2);
    edge.insert(edge.end(), other.rbegin(), other.rend());
    return edge;
}

std::vector<Point> simplified(std::span<const Point> line) {
    std::vector<Point> result;
    for (const Point point : line) {
        if (!result.empty() && distance(result.back(), point) < 0.01)
            continue;
        while (result.size() >= 2) {
            const Point one = direction(result[result.size() - 2], result.back());
            const Point other = direction(result.back(), point);
            if (std::abs(one.x * other.y - one.y * other.x) > 1e-6 ||
                one.x * other.x + one.y * other.y < 0)
                break;
            result.pop_back();
        }
        result.push_back(point);
    }
    return result;
}

std::vector<Point> withoutReturns(std::span<const Point> line) {
    std::vector<Point> result;
    for (const Point point : simplified(line)) {
        while (result.size() >= 2) {
            const Point a = result[result.size() - 2];
            const Point b = result.back();
            const double cross = (b.x - a.x) * (point.y - b.y) - (b.y - a.y) * (point.x - b.x);
            const double dot = (b.x - a.x) * (point.x - b.x) + (b.y - a.y) * (point.y - b.y);
            if (std::abs(cross) > 1e-6 || dot > 0)
                break;
            result.pop_back();
        }
        result.push_back(point);
    }
    return simplified(result);
}

std::vector<Point> rectangle(const Box& box) {
    return {
        {box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
}

std::vector<Point> circle(Point middle, double radius) {
    constexpr int corners = 28;
    std::vector<Point> points;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * i / corners;
        points.push_back(
            {middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
    }
    return points;
}

std::vector<std::pair<Point, Point>> hatchLines(std::span<const Point> polygon, double spacing) {
    // The lines x + y = c; along each, the crossings with the edges in pairs lie inside.
    std::vector<std::pair<Point, Point>> lines;
    const auto level = [](Point point) { return point.x + point.y; };
    if (polygon.empty())
        return lines;
    const double least = level(*std::ranges::min_element(polygon, {}, level));
    const double most = level(*std::ranges::max_element(polygon, {}, level));
    const double first = std::ceil(least / spacing) * spacing + spacing / 2;
    const int count = static_cast<int>(std::ceil((most - first) / spacing));
    for (int line = 0; line < count; ++line) {
        const double c = first + line * spacing;
        std::vector<Point> crossings;
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Point one = polygon[i];
            const Point other = polygon[(i + 1) % polygon.size()];
            if ((level(one) < c) != (level(other) < c))
                crossings.push_back(
                    between(one, other, (c - level(one)) / (level(other) - level(one))));
        }
        std::ranges::sort(crossings, {}, &Point::x);
        for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
            if (distance(crossings[i], crossings[i + 1]) > 0.5)
                lines.emplace_back(crossings[i], crossings[i + 1]);
    }
    return lines;
}

} // namespace drawing
} // namespace ebbline
