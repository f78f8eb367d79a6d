// SPDX-License-Identifier: MIT
// A part of the pictures shown larger.
#include "ebbline/magnifier.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace ebbline {
namespace {

constexpr double most_factor = 8;

Box boxOf(const Shape& shape) {
    constexpr double far = std::numeric_limits<double>::max();
    double left = far;
    double right = -far;
    double top = far;
    double bottom = -far;
    for (const Point& point : shape.points) {
        left = std::min(left, point.x);
        right = std::max(right, point.x);
        top = std::min(top, point.y);
        bottom = std::max(bottom, point.y);
    }
    return Box{left, top, right - left, bottom - top}.grown(shape.width / 2);
}

/// Places and lengths of a drawing, larger about a corner.
class Lens {
public:
    Lens(double factor, Point corner, const Box& area)
        : m_factor(factor), m_corner(corner), m_area(area) {}

    [[nodiscard]] Point operator()(Point at) const {
        return {m_area.x + (at.x - m_corner.x) * m_factor,
                m_area.y + (at.y - m_corner.y) * m_factor};
    }
    [[nodiscard]] Box operator()(const Box& box) const {
        const Point corner = (*this)(Point{box.x, box.y});
        return {corner.x, corner.y, box.width * m_factor, box.height * m_factor};
    }
    /// Whether something of it is left.
    [[nodiscard]] bool show(Shape& shape) const {
        for (Point& point : shape.points)
            point = (*this)(point);
        shape.width *= m_factor;
        for (double& length : shape.dash)
            length *= m_factor;
        return boxOf(shape).overlaps(m_area);
    }
    [[nodiscard]] bool show(Label& label) const {
        label.box = (*this)(label.box);
        label.baseline_y = (*this)(Point{0, label.baseline_y}).y;
        label.size *= m_factor;
        return m_area.contains(label.box);
    }

private:
    double m_factor;
    Point m_corner;
    Box m_area;
};

} // namespace

void Magnifier::zoom(double by, Point at, const Box& area) {
    const double factor = std::clamp(m_factor * by, 1.0, most_factor);
    const double across = std::clamp((at.x - area.x) / area.width, 0.0, 1.0);
    const double down = std::clamp((at.y - area.y) / area.height, 0.0, 1.0);
    m_corner.x += across / m_factor - across / factor;
    m_corner.y += down / m_factor - down / factor;
    m_factor = factor;
    pan(0, 0, area);
}

void Magnifier::pan(double right, double down, const Box& area) {
    const double most = 1 - 1 / m_factor;
    m_corner.x = std::clamp(m_corner.x - right / area.width / m_factor, 0.0, most);
    m_corner.y = std::clamp(m_corner.y - down / area.height / m_factor, 0.0, most);
}

void Magnifier::show(Drawing& drawing, const Box& area) const {
    if (!isOn())
        return;
    const Point corner{area.x + m_corner.x * area.width, area.y + m_corner.y * area.height};
    const Lens lens(m_factor, corner, area);
    for (Group& group : drawing.groups)
        if (group.role != "page")
            std::erase_if(group.items, [&](auto& item) {
                return !std::visit([&](auto& what) { return lens.show(what); }, item);
            });
    for (TimeAxis& axis : drawing.time_axes)
        axis.box = lens(axis.box);
    for (TerminalPlace& place : drawing.terminals)
        place.at = lens(place.at);
    std::erase_if(drawing.terminals, [&](const TerminalPlace& place) {
        return !area.contains({place.at.x, place.at.y, 0, 0});
    });
}

} // namespace ebbline
