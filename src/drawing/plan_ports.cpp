// SPDX-License-Identifier: MIT
// Terminals on the sides of their symbols, facing what they are connected to.
#include "plan_layout.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace ebbline::drawing {
namespace {

constexpr std::array sides{to_right, to_left, downwards, upwards};

class PortPlacing {
public:
    PortPlacing(PlanLayout& layout, const Installation& installation, double unit)
        : m_layout(layout), m_unit(unit) {
        for (const Run& run : installation.runs)
            for (const Core& core : run.cores) {
                link(core.from, core.to, run, true);
                link(core.to, core.from, run, false);
            }
    }

    void place() {
        for (Symbol& symbol : m_layout.symbols)
            place(symbol);
    }

private:
    /// Where the way from a terminal leads: to the route's beginning, or to the other part.
    void link(const Terminal& here, const Terminal& there, const Run& run, bool at_from) {
        if (m_layout.metres && run.route_m.size() > 1) {
            // The second point: the first one lies at the part itself.
            const Position next = at_from ? run.route_m[1] : run.route_m[run.route_m.size() - 2];
            m_toward[here].push_back(m_layout.metres->at(next));
        } else if (const Symbol* other = m_layout.findSymbol(there.part)) {
            m_toward[here].push_back(other->box.middle());
        }
    }

    /// Mean direction of what the terminals of a group are connected to; (0, 0) for nothing.
    [[nodiscard]] Point pull(const Symbol& symbol, const PortGroup& group) const {
        Point sum;
        double count = 0;
        for (const std::string& terminal : group.terminals)
            if (const auto place = m_toward.find({symbol.part->id, terminal});
                place != m_toward.end())
                for (const Point point : place->second) {
                    // Each counts the same, however far away it lies.
                    const double away = std::max(1.0, distance(symbol.box.middle(), point));
                    sum.x += (point.x - symbol.box.middle().x) / away;
                    sum.y += (point.y - symbol.box.middle().y) / away;
                    ++count;
                }
        return count > 0 ? Point{sum.x / count, sum.y / count} : Point{};
    }

    /// The side that faces a direction best, reckoned from the edges of the box.
    [[nodiscard]] static Point facing(Point direction, const Symbol& symbol, const Point* taken) {
        Point best = to_right;
        double best_score = -1e9;
        for (const Point side : sides) {
            if (taken != nullptr && side == *taken)
                continue;
            // Of two sides that face it alike the nearer one is taken: that of the short edge.
            const double score = side.x * direction.x + side.y * direction.y -
                                 1e-3 * (side.x != 0 ? symbol.box.width : symbol.box.height);
            if (score > best_score) {
                best_score = score;
                best = side;
            }
        }
        return best;
    }

    void place(Symbol& symbol) const {
        const std::vector<PortGroup> groups = portGroupsOf(*symbol.part);
        if (groups.empty())
            return;
        Point first_pull = pull(symbol, groups[0]);
        if (isInline(*symbol.part)) {
            // Both ends count: the part lies along the way through it.
            const Point other = pull(symbol, groups[1]);
            first_pull = {first_pull.x - other.x, first_pull.y - other.y};
        }
        Point first = facing(first_pull, symbol, nullptr);
        if (std::holds_alternative<Bond>(symbol.part->body))
            first = upwards;
        turn(symbol, first);
        for (std::size_t i = 0; i < groups.size(); ++i) {
            Point side = first;
            if (i > 0)
                side = groups[i].opposite ? Point{-first.x, -first.y}
                                          : facing(pull(symbol, groups[i]), symbol, &first);
            set(symbol, groups[i], side);
        }
    }

    /// An inline part whose conductor runs up and down stands upright.
    void turn(Symbol& symbol, Point first) const {
        if (first.y == 0 || !isInline(*symbol.part))
            return;
        const Point middle = symbol.box.middle();
        std::swap(symbol.box.width, symbol.box.height);
        symbol.box.x = middle.x - symbol.box.width / 2;
        symbol.box.y = middle.y - symbol.box.height / 2;
    }

    /// The terminals of a group that something is connected to, spaced along the side.
    void set(Symbol& symbol, const PortGroup& group, Point side) const {
        std::vector<std::string> used;
        const bool is_bar = std::holds_alternative<BusBar>(symbol.part->body);
        for (const std::string& terminal : group.terminals)
            if (m_toward.contains({symbol.part->id, terminal}) || terminal == "plus" ||
                terminal == "minus" || is_bar)
                used.push_back(terminal);
        const Box& box = symbol.box;
        const double length = side.x != 0 ? box.height : box.width;
        const double apart =
            used.size() > 1
                ? std::min(1.7 * m_unit, 0.8 * length / static_cast<double>(used.size() - 1))
                : 0;
        for (std::size_t i = 0; i < used.size(); ++i) {
            const double offset =
                (static_cast<double>(i) - static_cast<double>(used.size() - 1) / 2) * apart;
            const Point middle = box.middle();
            symbol.ports.push_back(
                {used[i],
                 {middle.x + side.x * box.width / 2 + std::abs(side.y) * offset,
                  middle.y + side.y * box.height / 2 + std::abs(side.x) * offset},
                 side});
        }
    }

    PlanLayout& m_layout;
    double m_unit;
    std::map<Terminal, std::vector<Point>> m_toward;
};

} // namespace

void placePorts(PlanLayout& layout, const Installation& installation, double unit) {
    PortPlacing(layout, installation, unit).place();
}

} // namespace ebbline::drawing
