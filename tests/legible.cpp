// SPDX-License-Identifier: MIT
// Whether a drawing can be read.
#include "legible.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ebbline::legible {
namespace {

/// One item with its place in the order of painting.
struct Piece {
    const Shape* shape = nullptr;
    const Label* label = nullptr;
};

std::vector<Piece> piecesOf(const Drawing& drawing) {
    std::vector<Piece> pieces;
    for (const Group& group : drawing.groups)
        for (const auto& item : group.items)
            pieces.push_back({std::get_if<Shape>(&item), std::get_if<Label>(&item)});
    return pieces;
}

double cross(Point a, Point b, Point c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool segmentsMeet(Point a, Point b, Point c, Point d) {
    return (cross(a, b, c) > 0) != (cross(a, b, d) > 0) &&
           (cross(c, d, a) > 0) != (cross(c, d, b) > 0);
}

bool isIn(Point point, const Box& box) {
    return point.x > box.x && point.x < box.right() && point.y > box.y && point.y < box.bottom();
}

/// A way to find it that shares nothing with the drawing's own bookkeeping.
bool lineMeets(Point a, Point b, const Box& box) {
    const Point corner{box.right(), box.y};
    const Point other{box.x, box.bottom()};
    return isIn(a, box) || isIn(b, box) ||
           segmentsMeet(a, b, {box.x, box.y}, {box.right(), box.bottom()}) ||
           segmentsMeet(a, b, corner, other);
}

bool edgeMeets(const Shape& shape, const Box& box) {
    const std::size_t count = shape.points.size() - (shape.closed ? 0 : 1);
    for (std::size_t i = 0; i < count; ++i)
        if (lineMeets(shape.points[i],
                      shape.points[(i + 1) % shape.points.size()],
                      box.grown(shape.width / 2)))
            return true;
    return false;
}

bool covers(const Shape& shape, Point point) {
    if (!shape.closed || !shape.fill)
        return false;
    bool inside = false;
    for (std::size_t i = 0; i < shape.points.size(); ++i) {
        const Point a = shape.points[i];
        const Point b = shape.points[(i + 1) % shape.points.size()];
        if ((a.y > point.y) != (b.y > point.y) &&
            point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x))
            inside = !inside;
    }
    return inside;
}

/// What is painted at a point before piece `end`.
Ink groundAt(const std::vector<Piece>& pieces, std::size_t end, Point point) {
    Ink ground = Ink::Desk;
    for (std::size_t i = 0; i < end; ++i)
        if (pieces[i].shape != nullptr && covers(*pieces[i].shape, point))
            ground = *pieces[i].shape->fill;
    return ground;
}

/// Whether something painted after piece `line` and before label `end` lies under all of the label.
bool isHidden(const std::vector<Piece>& pieces, std::size_t line, std::size_t end) {
    const Box& box = pieces[end].label->box;
    for (std::size_t i = line + 1; i < end; ++i)
        if (pieces[i].shape != nullptr &&
            std::ranges::all_of(std::initializer_list<Point>{{box.x, box.y},
                                                             {box.right(), box.y},
                                                             {box.x, box.bottom()},
                                                             {box.right(), box.bottom()}},
                                [&](Point corner) { return covers(*pieces[i].shape, corner); }))
            return true;
    return false;
}

Box boxOf(const Shape& shape) {
    const auto [left, right] = std::ranges::minmax(shape.points, {}, &Point::x);
    const auto [top, bottom] = std::ranges::minmax(shape.points, {}, &Point::y);
    return {left.x, top.y, right.x - left.x, bottom.y - top.y};
}

std::string quoted(const Label& label) {
    return "'" + label.text + "'";
}

/// The box without its outermost hair: what only touches does not overlap.
Box core(const Label& label) {
    return label.box.grown(-0.01);
}

} // namespace

std::vector<std::string> findFaults(const Drawing& drawing) {
    std::vector<std::string> faults;
    const std::vector<Piece> pieces = piecesOf(drawing);
    const Box sheet{0, 0, drawing.width, drawing.height};
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].label == nullptr)
            continue;
        const Label& label = *pieces[i].label;
        if (!sheet.contains(label.box))
            faults.push_back(quoted(label) + " leaves the sheet");
        for (std::size_t k = 0; k < pieces.size(); ++k) {
            if (k > i && pieces[k].label != nullptr && pieces[k].label->box.overlaps(core(label)))
                faults.push_back(quoted(label) + " overlaps " + quoted(*pieces[k].label));
            const Shape* shape = pieces[k].shape;
            if (shape == nullptr)
                continue;
            if ((shape->edge || shape->fill == Ink::Fill) && edgeMeets(*shape, core(label)) &&
                !isHidden(pieces, k, i))
                faults.push_back(quoted(label) + " lies over a line");
            if (k > i && covers(*shape, label.box.middle()))
                faults.push_back(quoted(label) + " is painted over");
        }
        if (groundAt(pieces, i, label.box.middle()) == Ink::Fill)
            faults.push_back(quoted(label) + " stands in a cable");
    }
    return faults;
}

std::vector<std::string> findFaultsOver(const Drawing& drawing, std::string_view role) {
    Drawing over = drawing;
    Drawing under = drawing;
    std::erase_if(over.groups, [&](const Group& group) { return group.role != role; });
    std::erase_if(under.groups, [&](const Group& group) { return group.role == role; });
    std::vector<std::string> faults = findFaults(over);
    if (over.groups.empty() || over.groups.front().items.empty() ||
        !std::holds_alternative<Shape>(over.groups.front().items.front()))
        return {"nothing lies over it"};
    const Box ground = boxOf(std::get<Shape>(over.groups.front().items.front()));
    if (!Box{0, 0, drawing.width, drawing.height}.contains(ground))
        faults.emplace_back("what lies over it leaves the sheet");
    for (const Label& label : labelsOf(over))
        if (!ground.contains(label.box))
            faults.push_back(quoted(label) + " leaves its ground");
    for (const Label& label : labelsOf(under))
        if (ground.overlaps(core(label)) && !ground.contains(label.box))
            faults.push_back(quoted(label) + " is cut through");
    return faults;
}

std::vector<Label> labelsOf(const Drawing& drawing, std::string_view role) {
    std::vector<Label> labels;
    for (const Group& group : drawing.groups)
        if (role.empty() || group.role == role)
            for (const auto& item : group.items)
                if (const auto* label = std::get_if<Label>(&item))
                    labels.push_back(*label);
    return labels;
}

std::string plain(std::string text) {
    const std::string hard = "\u00a0";
    for (std::size_t at = text.find(hard); at != std::string::npos; at = text.find(hard))
        text.replace(at, hard.size(), " ");
    return text;
}

bool hasText(const std::vector<Label>& labels, std::string_view text) {
    return std::ranges::any_of(labels, [&](const Label& label) {
        return plain(label.text).find(text) != std::string::npos;
    });
}

double leastTextContrast(const Drawing& drawing) {
    const std::vector<Piece> pieces = piecesOf(drawing);
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].label == nullptr)
            continue;
        const Label& label = *pieces[i].label;
        for (const double share : {0.02, 0.5, 0.98}) {
            const Point at{label.box.x + share * label.box.width, label.box.middle().y};
            least = std::min(
                least,
                drawing::contrast(drawing::colourOf(label.ink, drawing.paper),
                                  drawing::colourOf(groundAt(pieces, i, at), drawing.paper)));
        }
    }
    return least;
}

double leastLineContrast(const Drawing& drawing) {
    const std::vector<Piece> pieces = piecesOf(drawing);
    double least = std::numeric_limits<double>::infinity();
    const auto look = [&](std::size_t index, Ink ink, Point at) {
        // A fill in its own edge is one thing; a conductor may cross a cable, which its ends tell.
        const Ink ground = groundAt(pieces, index, at);
        if (ground != ink && ground != Ink::Fill)
            least = std::min(least,
                             drawing::contrast(drawing::colourOf(ink, drawing.paper),
                                               drawing::colourOf(ground, drawing.paper)));
    };
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Shape* shape = pieces[i].shape;
        if (shape == nullptr || !shape->edge || shape->edge == Ink::Faint)
            continue;
        for (std::size_t k = 1; k < shape->points.size(); ++k) {
            const Point a = shape->points[k - 1];
            const Point b = shape->points[k];
            look(i, *shape->edge, {(a.x + b.x) / 2, (a.y + b.y) / 2});
        }
    }
    return least;
}

} // namespace ebbline::legible
