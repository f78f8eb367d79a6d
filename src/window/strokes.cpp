// SPDX-License-Identifier: MIT
// Shapes as triangles with soft edges.
#include "strokes.h"

#include <GL/glu.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <numbers>

namespace ebbline::window {
namespace {

constexpr double unseen = 0.1; // pixels

sf::Vertex vertexAt(Point point, sf::Color colour) {
    return {{static_cast<float>(point.x), static_cast<float>(point.y)}, colour};
}

sf::Color faded(sf::Color colour, double share) {
    colour.a = static_cast<sf::Uint8>(std::lround(colour.a * share));
    return colour;
}

sf::Color clear(sf::Color colour) {
    return faded(colour, 0);
}

Point along(Point from, Point direction, double length) {
    return {from.x + direction.x * length, from.y + direction.y * length};
}

Point unitVector(Point from, Point to) {
    const double x = to.x - from.x;
    const double y = to.y - from.y;
    const double length = std::hypot(x, y);
    return length > 0 ? Point{x / length, y / length} : Point{0, 0};
}

/// Between two edges that may have different colours.
void strip(Triangles& triangles, Point a, Point b, sf::Color ab, Point c, Point d, sf::Color cd) {
    triangles.insert(triangles.end(),
                     {vertexAt(a, ab),
                      vertexAt(b, ab),
                      vertexAt(c, cd),
                      vertexAt(b, ab),
                      vertexAt(d, cd),
                      vertexAt(c, cd)});
}

/// What the tessellator of GLU is told and tells.
struct Tessellation {
    Triangles& triangles;
    sf::Color colour;
    std::deque<std::array<GLdouble, 3>> places; ///< of vertices; they stay where they are
};

void onVertex(void* place, void* data) {
    auto& work = *static_cast<Tessellation*>(data);
    const auto* at = static_cast<const GLdouble*>(place);
    work.triangles.push_back(vertexAt({at[0], at[1]}, work.colour));
}

/// Where a polygon crosses itself.
void onCombine(const GLdouble at[3],
               void* /*neighbours*/[4],
               const GLfloat /*weights*/[4],
               void** out,
               void* data) {
    auto& work = *static_cast<Tessellation*>(data);
    *out = work.places.emplace_back(std::array<GLdouble, 3>{at[0], at[1], 0}).data();
}

/// That it is there makes the tessellator give triangles alone.
void onEdge(GLboolean /*is_edge*/, void* /*data*/) {}

using Callback = void (*)();

void tessellate(Triangles& triangles, std::span<const Point> polygon, sf::Color colour) {
    Tessellation work{.triangles = triangles, .colour = colour, .places = {}};
    GLUtesselator* tessellator = gluNewTess();
    gluTessProperty(tessellator, GLU_TESS_WINDING_RULE, GLU_TESS_WINDING_NONZERO);
    gluTessCallback(tessellator, GLU_TESS_VERTEX_DATA, reinterpret_cast<Callback>(onVertex));
    gluTessCallback(tessellator, GLU_TESS_COMBINE_DATA, reinterpret_cast<Callback>(onCombine));
    gluTessCallback(tessellator, GLU_TESS_EDGE_FLAG_DATA, reinterpret_cast<Callback>(onEdge));
    gluTessBeginPolygon(tessellator, &work);
    gluTessBeginContour(tessellator);
    for (const Point& point : polygon) {
        auto& place = work.places.emplace_back(std::array<GLdouble, 3>{point.x, point.y, 0});
        gluTessVertex(tessellator, place.data(), place.data());
    }
    gluTessEndContour(tessellator);
    gluTessEndPolygon(tessellator);
    gluDeleteTess(tessellator);
}

/// One straight piece: its core, and an edge on either side that fades over a pixel.
void piece(Triangles& triangles, Point from, Point to, double width, sf::Color colour) {
    const Point way = unitVector(from, to);
    const Point across{-way.y, way.x};
    const sf::Color core = width < 1 ? faded(colour, width) : colour; // thinner than a pixel
    const double inner = std::max(width - 1, 0.0) / 2;
    const double outer = inner + 1;
    const Point a = along(from, across, inner);
    const Point b = along(to, across, inner);
    const Point c = along(from, across, -inner);
    const Point d = along(to, across, -inner);
    if (inner > 0)
        strip(triangles, a, b, core, c, d, core);
    strip(triangles, a, b, core, along(from, across, outer), along(to, across, outer), clear(core));
    strip(
        triangles, c, d, core, along(from, across, -outer), along(to, across, -outer), clear(core));
}

/// The edge of what is filled: half a pixel more of it fades, on whichever side is empty. Along
/// whole pixels it stays sharp.
void soften(Triangles& triangles, Point from, Point to, sf::Color colour) {
    const Point way = unitVector(from, to);
    const Point across{-way.y, way.x};
    const sf::Color half = faded(colour, 0.5);
    for (const double side : {-0.5, 0.5})
        strip(triangles,
              from,
              to,
              half,
              along(from, across, side),
              along(to, across, side),
              clear(colour));
}

/// The wedge that is open on the outer side of a bend.
void join(
    Triangles& triangles, Point before, Point at, Point after, double width, sf::Color colour) {
    const double inner = std::max(width - 1, 0.0) / 2;
    if (inner <= 0)
        return;
    const Point in = unitVector(before, at);
    const Point out = unitVector(at, after);
    const double turn = in.x * out.y - in.y * out.x;
    const bool goes_on = in.x * out.x + in.y * out.y > 0;
    if (goes_on && inner * std::abs(turn) < unseen)
        return;
    const double side = turn > 0 ? -1 : 1; // the outer one
    const double from = std::atan2(side * in.x, -side * in.y);
    double to = std::atan2(side * out.x, -side * out.y);
    constexpr double whole = 2 * std::numbers::pi;
    while (to - from > std::numbers::pi)
        to -= whole;
    while (from - to > std::numbers::pi)
        to += whole;
    const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) * 2)));
    const auto rim = [&](int i, double radius) {
        const double angle = std::lerp(from, to, static_cast<double>(i) / steps);
        return Point{at.x + radius * std::cos(angle), at.y + radius * std::sin(angle)};
    };
    for (int i = 0; i < steps; ++i) {
        triangles.insert(triangles.end(),
                         {vertexAt(at, colour),
                          vertexAt(rim(i, inner), colour),
                          vertexAt(rim(i + 1, inner), colour)});
        strip(triangles,
              rim(i, inner),
              rim(i + 1, inner),
              colour,
              rim(i, inner + 1),
              rim(i + 1, inner + 1),
              clear(colour));
    }
}

/// The line without points that lie on it but for a hair: a waveform has several in a pixel.
std::vector<Point> withoutHairs(std::span<const Point> points) {
    constexpr std::size_t most = 16; // left out in a row
    std::vector<Point> kept{points.front()};
    std::size_t last = 0;
    const auto lies_on = [&](std::size_t i, std::size_t end) {
        const Point way = unitVector(points[last], points[end]);
        const double x = points[i].x - points[last].x;
        const double y = points[i].y - points[last].y;
        const double on = x * way.x + y * way.y;
        const double whole =
            (points[end].x - points[last].x) * way.x + (points[end].y - points[last].y) * way.y;
        return std::abs(x * way.y - y * way.x) < unseen && on >= 0 && on <= whole;
    };
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        bool is_hair = i - last < most;
        for (std::size_t k = last + 1; is_hair && k <= i; ++k)
            is_hair = lies_on(k, i + 1);
        if (is_hair)
            continue;
        kept.push_back(points[i]);
        last = i;
    }
    kept.push_back(points.back());
    return kept;
}

} // namespace

void fill(Triangles& triangles, std::span<const Point> polygon, sf::Color colour) {
    if (polygon.size() < 3)
        return;
    tessellate(triangles, polygon, colour);
    for (std::size_t i = 0; i < polygon.size(); ++i)
        soften(triangles, polygon[i], polygon[(i + 1) % polygon.size()], colour);
}

void stroke(Triangles& triangles,
            std::span<const Point> line,
            bool closed,
            double width,
            sf::Color colour) {
    if (line.size() < 2)
        return;
    const std::vector<Point> points = withoutHairs(line);
    const std::size_t count = points.size();
    const std::size_t pieces = closed ? count : count - 1;
    for (std::size_t i = 0; i < pieces; ++i)
        piece(triangles, points[i], points[(i + 1) % count], width, colour);
    for (std::size_t i = closed ? 0 : 1; i + (closed ? 0 : 1) < count; ++i)
        join(triangles,
             points[(i + count - 1) % count],
             points[i],
             points[(i + 1) % count],
             width,
             colour);
}

std::vector<std::vector<Point>>
dashed(std::span<const Point> points, bool closed, std::span<const double> dash) {
    std::vector<std::vector<Point>> pieces;
    std::size_t part = 0;
    double left = dash[0];
    std::vector<Point> piece{points[0]};
    const std::size_t count = points.size();
    for (std::size_t i = 0; i + (closed ? 0 : 1) < count; ++i) {
        Point at = points[i];
        const Point to = points[(i + 1) % count];
        const Point way = unitVector(at, to);
        double rest = std::hypot(to.x - at.x, to.y - at.y);
        while (rest > left) {
            at = along(at, way, left);
            rest -= left;
            piece.push_back(at);
            if (part % 2 == 0)
                pieces.push_back(std::move(piece));
            piece = {at};
            part = (part + 1) % dash.size();
            left = std::max(dash[part], 0.1); // a dash of no length would never end
        }
        left -= rest;
        piece.push_back(to);
    }
    if (part % 2 == 0 && piece.size() > 1)
        pieces.push_back(std::move(piece));
    return pieces;
}

} // namespace ebbline::window
