// SPDX-License-Identifier: MIT
// Finds places for numbers: of all directions and distances the cheapest that is free.
#include "rings.h"

#include "geometry.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <utility>

namespace ebbline::drawing {
namespace {

constexpr double air = 0.25;           // around a ring, units as all below
constexpr double least_air = 0.1;      // where nothing else is left
constexpr double reach = 20;           // of a line
constexpr double step = 0.3;           // from one distance to the next
constexpr double turning_cost = 1.5;   // of a radian away from what is wished
constexpr double elsewhere_cost = 0.7; // of every next best point
constexpr double dot_clearance = 0.4;
constexpr int directions = 72;

/// Which side of a line a point lies on: its sign.
double sideOf(Point from, Point to, Point point) {
    return (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x);
}

bool cross(const Ring& one, const Ring& other) {
    return sideOf(one.from, one.middle, other.from) * sideOf(one.from, one.middle, other.middle) <
               0 &&
           sideOf(other.from, other.middle, one.from) *
                   sideOf(other.from, other.middle, one.middle) <
               0;
}

/// Of a point from the line of a ring.
double distanceTo(const Ring& ring, Point point) {
    const Point way{ring.middle.x - ring.from.x, ring.middle.y - ring.from.y};
    const double along = (point.x - ring.from.x) * way.x + (point.y - ring.from.y) * way.y;
    return distance(point,
                    between(ring.from,
                            ring.middle,
                            std::clamp(along / (way.x * way.x + way.y * way.y), 0.0, 1.0)));
}

/// Where one leaves a box that goes from its middle in a direction.
Point edgeOf(const Box& box, Point towards) {
    const auto until = [](double half, double part) {
        return std::abs(part) < 1e-9 ? 1e9 : half / std::abs(part);
    };
    const double far = std::min(until(box.width / 2, towards.x), until(box.height / 2, towards.y));
    const Point middle = box.middle();
    return {middle.x + far * towards.x, middle.y + far * towards.y};
}

/// What is given up, one after the other, for a number that finds no place.
enum class Care {
    Neat,
    Tight,    ///< close to its neighbours, lines cross
    Anywhere, ///< the line goes over the corner of a part
};

class Rings {
public:
    Rings(const Canvas& canvas, std::span<const RingTarget> targets, const Box& within, double unit)
        : m_canvas(canvas), m_targets(targets), m_within(within), m_unit(unit) {}

    /// What found no place is placed before all others in the next round.
    [[nodiscard]] std::vector<std::optional<Ring>> place() {
        std::vector<std::size_t> order(m_targets.size());
        std::iota(order.begin(), order.end(), 0);
        std::ranges::sort(
            order, {}, [&](std::size_t index) { return std::pair(m_targets[index].room, index); });
        std::vector<std::optional<Ring>> best(m_targets.size());
        for (std::size_t round = 0; round < m_targets.size(); ++round) {
            placeInTurn(order);
            if (countIn(m_rings) > countIn(best))
                best = m_rings;
            const auto failed =
                std::ranges::find_if(order, [&](std::size_t index) { return !m_rings[index]; });
            if (failed == order.end())
                return best;
            std::rotate(order.begin(), failed, std::next(failed));
        }
        m_rings = best;
        for (std::size_t i = 0; i < m_targets.size(); ++i)
            if (!m_rings[i] && !(m_rings[i] = find(i, Care::Tight)) && !makeWayFor(i))
                m_rings[i] = find(i, Care::Anywhere);
        return m_rings;
    }

private:
    /// Moves one of the others elsewhere if that helps.
    bool makeWayFor(std::size_t index) {
        for (std::size_t other = 0; other < m_targets.size(); ++other) {
            const std::optional<Ring> before = m_rings[other];
            m_rings[other].reset();
            m_rings[index] = find(index, Care::Tight);
            m_rings[other] = find(other, Care::Tight);
            if (other != index && m_rings[index] && m_rings[other])
                return true;
            m_rings[index].reset();
            m_rings[other] = before;
        }
        return false;
    }

    [[nodiscard]] static std::ptrdiff_t countIn(const std::vector<std::optional<Ring>>& rings) {
        return std::ranges::count_if(rings, [](const auto& ring) { return ring.has_value(); });
    }

    void placeInTurn(const std::vector<std::size_t>& order) {
        m_rings.assign(m_targets.size(), std::nullopt);
        for (const std::size_t index : order)
            m_rings[index] = find(index, Care::Neat);
    }

    /// The cheapest free ring.
    struct Choice {
        std::optional<Ring> ring;
        double cost = 0;
    };

    [[nodiscard]] std::optional<Ring> find(std::size_t index, Care care) const {
        const RingTarget& target = m_targets[index];
        Choice choice;
        choose(choice, index, target.about, 0, care);
        double cost = 0;
        for (const Point& point : target.also)
            choose(choice, index, {point.x, point.y, 0, 0}, cost += elsewhere_cost, care);
        return choice.ring;
    }

    void choose(
        Choice& choice, std::size_t index, const Box& about, double first_cost, Care care) const {
        constexpr double turn = 2 * std::numbers::pi / directions;
        const Point wish = m_targets[index].wish;
        for (int i = 0; i < directions; ++i) {
            const double off = (i - directions / 2) * turn;
            const double angle = std::atan2(wish.y, wish.x) + off;
            const Point towards{std::cos(angle), std::sin(angle)};
            const Point from = edgeOf(about, towards);
            for (double away = ring_radius + least_air; away < reach; away += step) {
                const double cost = first_cost + away + turning_cost * std::abs(off);
                if (choice.ring && cost >= choice.cost)
                    break; // farther away it only gets dearer
                const Ring ring{
                    from, {from.x + away * m_unit * towards.x, from.y + away * m_unit * towards.y}};
                if (fits(index, ring, care))
                    choice = {ring, cost};
            }
        }
    }

    [[nodiscard]] bool fits(std::size_t index, const Ring& ring, Care care) const {
        const double around = care == Care::Neat ? air : least_air;
        const Box box =
            Box{ring.middle.x, ring.middle.y, 0, 0}.grown((ring_radius + around) * m_unit);
        if (!m_within.contains(box) || !m_canvas.isFree(box) ||
            (care != Care::Anywhere &&
             m_canvas.crosses(ring.from, ring.middle, m_targets[index].about)))
            return false;
        for (std::size_t i = 0; i < m_targets.size(); ++i)
            if (i != index &&
                (isInTheWay(i, ring, box, care) || (care == Care::Neat && isUntidyWith(i, ring))))
                return false;
        return true;
    }

    /// Another number or its dot would be covered, or the line between them.
    [[nodiscard]] bool
    isInTheWay(std::size_t other, const Ring& ring, const Box& box, Care care) const {
        if (isDotted(other) && box.overlaps(dotOf(other).grown(ring_dot * m_unit)))
            return true;
        if (!m_rings[other])
            return false;
        const double radius = ring_radius * m_unit;
        const double apart = radius + (care == Care::Neat ? 2 * air : least_air) * m_unit;
        const Ring& there = *m_rings[other];
        return distance(ring.middle, there.middle) < radius + apart ||
               distanceTo(ring, there.middle) < apart || distanceTo(there, ring.middle) < apart;
    }

    [[nodiscard]] bool isUntidyWith(std::size_t other, const Ring& ring) const {
        const Box dot = dotOf(other).grown(dot_clearance * m_unit);
        return (isDotted(other) && touches(ring.from, ring.middle, 0, dot)) ||
               (m_rings[other] && cross(ring, *m_rings[other]));
    }

    /// Where it is, or will most likely be.
    [[nodiscard]] Box dotOf(std::size_t index) const {
        return m_rings[index] ? Box{m_rings[index]->from.x, m_rings[index]->from.y, 0, 0}
                              : m_targets[index].about;
    }

    [[nodiscard]] bool isDotted(std::size_t index) const {
        return m_targets[index].about.width == 0;
    }

    const Canvas& m_canvas;
    std::span<const RingTarget> m_targets;
    Box m_within;
    double m_unit;
    std::vector<std::optional<Ring>> m_rings;
};

} // namespace

std::vector<std::optional<Ring>> placeRings(const Canvas& canvas,
                                            std::span<const RingTarget> targets,
                                            const Box& within,
                                            double unit) {
    return Rings(canvas, targets, within, unit).place();
}

} // namespace ebbline::drawing
