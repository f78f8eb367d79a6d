// SPDX-License-Identifier: MIT
// Terminals on the sides of their symbols, facing what they are connected to.
#include "plan_layout.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

namespace ebbline::drawing {
namespace {

constexpr std::array sides{to_right, to_left, downwards, upwards};

/// Where the way from a terminal leads.
struct Goal {
    Point at;
    bool routed = false; ///< along a route that the scene gives
    Point beyond;        ///< the bend after that
};

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
        // A core that leaves its cable for a part of its own heads for where the cable begins.
        const Core& first = run.cores.front();
        const std::string& main = at_from ? first.from.part : first.to.part;
        const Symbol* joins = here.part == main ? nullptr : m_layout.findSymbol(main);
        const bool is_routed = m_layout.metres && run.route_m.size() > 1;
        const auto bend = [&](std::size_t number) {
            const std::size_t last = run.route_m.size() - 1;
            const std::size_t i = std::min(number, last);
            return m_layout.metres->at(run.route_m[at_from ? i : last - i]);
        };
        if (joins != nullptr) {
            const Point middle = joins->box.middle();
            m_toward[here].push_back({middle, false, is_routed ? bend(1) : middle});
        } else if (is_routed) {
            // The second point: the first one lies at the part itself.
            m_toward[here].push_back({bend(1), true, bend(2)});
        } else if (const Symbol* other = m_layout.findSymbol(there.part)) {
            m_toward[here].push_back({other->box.middle(), false, other->box.middle()});
        }
    }

    /// Mean direction of what the terminals of a group are connected to; (0, 0) for nothing.
    [[nodiscard]] Point pull(const Symbol& symbol, const PortGroup& group) const {
        Point sum;
        double count = 0;
        for (const std::string& terminal : group.terminals)
            if (const auto place = m_toward.find({symbol.part->id, terminal});
                place != m_toward.end())
                for (const Goal& goal : place->second) {
                    // A part that was pushed aside still has its cable leave the way it is laid.
                    const Point here = goal.routed ? symbol.wish : symbol.box.middle();
                    // Each counts the same, however far away it lies.
                    const double away = std::max(1.0, distance(here, goal.at));
                    sum.x += (goal.at.x - here.x) / away;
                    sum.y += (goal.at.y - here.y) / away;
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
        const std::vector<PortGroup> groups = std::holds_alternative<BusBar>(symbol.part->body)
                                                  ? barGroups(symbol, portGroupsOf(*symbol.part))
                                                  : portGroupsOf(*symbol.part);
        if (groups.empty())
            return;
        Point first_pull = pull(symbol, groups[0]);
        if (isInline(*symbol.part)) {
            // Both ends count: the part lies along the way through it.
            const Point other = pull(symbol, groups[1]);
            first_pull = {first_pull.x - other.x, first_pull.y - other.y};
        }
        Point first = facing(first_pull, symbol, nullptr);
        if (std::holds_alternative<BusBar>(symbol.part->body))
            first = to_left;
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

    /// Where a cable that leaves straight up or down turns to is what counts at an upright bar.
    [[nodiscard]] Point barPull(const Symbol& symbol, const std::string& terminal) const {
        Point way = pull(symbol, {{terminal}});
        if (std::abs(way.x) > 0.2)
            return way;
        const double beyond_x = m_toward.at({symbol.part->id, terminal}).front().beyond.x;
        way.x = beyond_x < symbol.wish.x ? -0.2 : 0.2;
        return way;
    }

    /// The studs of a bar that stands upright, each on the side that faces its neighbour, from top
    /// to bottom as the neighbours lie.
    [[nodiscard]] std::vector<PortGroup> barGroups(const Symbol& symbol,
                                                   const std::vector<PortGroup>& groups) const {
        std::vector<std::pair<Point, std::string>> studs;
        for (const PortGroup& group : groups)
            for (const std::string& terminal : group.terminals)
                if (m_toward.contains({symbol.part->id, terminal}))
                    studs.emplace_back(barPull(symbol, terminal), terminal);
        std::ranges::sort(studs, {}, [](const auto& stud) {
            return std::tuple(stud.first.y, stud.first.x, stud.second);
        });
        PortGroup left;
        PortGroup right{.opposite = true};
        for (const auto& [way, terminal] : studs)
            (way.x < 0 ? left : right).terminals.push_back(terminal);
        return {left, right};
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
                terminal == "minus")
                used.push_back(terminal);
        if (used.size() == 2 && !is_bar)
            orderByPull(symbol, used, side);
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

    /// Two terminals whose ways part along their side stand so that the ways need not cross.
    void orderByPull(const Symbol& symbol, std::vector<std::string>& used, Point side) const {
        const auto along = [&](const std::string& terminal) {
            const auto goals = m_toward.find({symbol.part->id, terminal});
            if (goals == m_toward.end())
                return 0.0;
            const Point way = pull(symbol, {{terminal}});
            const Point beyond = goals->second.front().beyond;
            const double away = std::max(1.0, distance(symbol.wish, beyond));
            const double later =
                (side.x != 0 ? beyond.y - symbol.wish.y : beyond.x - symbol.wish.x);
            return (side.x != 0 ? way.y : way.x) + 0.5 * later / away;
        };
        if (along(used[0]) > along(used[1]) + 0.15)
            std::swap(used[0], used[1]);
    }

    PlanLayout& m_layout;
    double m_unit;
    std::map<Terminal, std::vector<Goal>> m_toward;
};

} // namespace

void placePorts(PlanLayout& layout, const Installation& installation, double unit) {
    PortPlacing(layout, installation, unit).place();
}

} // namespace ebbline::drawing
