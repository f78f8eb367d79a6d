// SPDX-License-Identifier: MIT
// Places of symbols: to scale where the scene says so, beside their neighbours where it does not.
#include "plan_layout.h"
#include "plan_metres.h"

#include "ebbline/error.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace ebbline::drawing {
namespace {

Box boxAround(Point middle, const Part& part, double unit) {
    const Point extent = extentOf(part);
    return {middle.x - extent.x * unit / 2,
            middle.y - extent.y * unit / 2,
            extent.x * unit,
            extent.y * unit};
}

/// Which parts are connected to which, by runs and bonds.
std::map<std::string, std::vector<std::string>> neighbours(const Installation& installation) {
    std::map<std::string, std::vector<std::string>> of;
    for (const Run& run : installation.runs)
        for (const Core& core : run.cores) {
            of[core.from.part].push_back(core.to.part);
            of[core.to.part].push_back(core.from.part);
        }
    return of;
}

class Placing {
public:
    Placing(PlanLayout& layout, const Network& network, const Box& area, double unit)
        : m_layout(layout), m_network(network), m_area(area), m_unit(unit),
          m_small(unit * symbolScale(area, unit)), m_neighbours(neighbours(network.installation)) {}

    void place() {
        if (!isCrowded())
            m_layout.metres = findScale(m_network.installation, m_area, m_unit);
        m_rooms = findRooms();
        if (m_layout.metres)
            for (const Part& part : m_network.installation.parts)
                if (part.at_m && isShown(part))
                    put(part, stepBack(part, m_layout.metres->at(*part.at_m)));
        if (m_layout.symbols.empty())
            placeLoop();
        spread();
        while (placeNext()) {
        }
        spread();
    }

private:
    /// So many parts in so little room that to scale they would lie over one another.
    [[nodiscard]] bool isCrowded() const {
        constexpr int most_parts = 5;
        const auto shown = std::ranges::count_if(m_network.installation.parts,
                                                 [&](const Part& part) { return isShown(part); });
        return isSmallPlan(m_area, m_unit) && shown > most_parts;
    }

    void put(const Part& part, Point middle) {
        m_layout.symbols.push_back({&part, boxAround(middle, part, unitOf(part)), middle, {}});
    }

    [[nodiscard]] bool isShown(const Part& part) const {
        return hasSymbol(part) && (!isSmallPlan(m_area, m_unit) || isInLoop(m_network, part));
    }

    [[nodiscard]] double unitOf(const Part& part) const {
        return std::holds_alternative<Controller>(part.body) ? m_unit : m_small;
    }

    /// Away from the last bend of a cable that comes close, so that its end can be seen.
    [[nodiscard]] Point stepBack(const Part& part, Point middle) const {
        const auto& metres = m_layout.metres;
        EBBLINE_ASSERT(metres.has_value(), "a drawn way needs a scale");
        const Point extent = extentOf(part);
        for (const Run& run : m_network.installation.runs) {
            const std::size_t n = run.route_m.size();
            if (n < 2)
                continue;
            for (const bool from : {true, false}) {
                const Terminal& end = from ? run.cores.front().from : run.cores.front().to;
                if (end.part != part.id)
                    continue;
                const Point bend = metres->at(run.route_m[from ? 1 : n - 2]);
                const bool upright = std::abs(bend.y - middle.y) > std::abs(bend.x - middle.x);
                const double need = (upright ? extent.y : extent.x) / 2 * unitOf(part) + 2 * m_unit;
                double& place = upright ? middle.y : middle.x;
                const double away = place - (upright ? bend.y : bend.x);
                if (std::abs(away) < need && std::abs(away) > 1)
                    place += (away > 0 ? 1 : -1) * (need - std::abs(away));
            }
        }
        return middle;
    }

    [[nodiscard]] bool isPlaced(const std::string& id) const {
        return m_layout.findSymbol(id) != nullptr;
    }

    /// Parts of one side of the loop in order, without the battery and the fridge.
    [[nodiscard]] std::vector<const Part*> partsAlong(const std::vector<Step>& way) const {
        std::vector<const Part*> parts;
        std::set<std::string> seen;
        for (const Step& step : way) {
            const Element& element = m_network.elements[static_cast<std::size_t>(step.element)];
            const Part* part = m_network.installation.findPart(element.part);
            if (part != nullptr && isShown(*part) && seen.insert(part->id).second)
                parts.push_back(part);
        }
        return parts;
    }

    /// Nothing has a place: battery left, fridge right, the plus side's parts above, the minus
    /// side's below.
    void placeLoop() {
        const Installation& installation = m_network.installation;
        const Part* fridge = installation.findPart(installation.subject);
        const double middle_y = m_area.y + 0.5 * m_area.height;
        const double left = m_area.x + 4 * m_unit;
        const double right = m_area.right() - 5 * m_unit;
        put(*fridge, {right, middle_y});
        if (!m_network.loop)
            return;
        const auto& battery = m_network.elements[static_cast<std::size_t>(m_network.loop->battery)];
        put(*installation.findPart(battery.part), {left, middle_y});
        const auto row = [&](const std::vector<const Part*>& parts, double y) {
            for (std::size_t i = 0; i < parts.size(); ++i)
                if (!isPlaced(parts[i]->id))
                    put(*parts[i],
                        {left + (right - left) * static_cast<double>(i + 1) /
                                    static_cast<double>(parts.size() + 1),
                         y});
        };
        row(partsAlong(m_network.loop->out), m_area.y + 0.24 * m_area.height);
        std::vector<const Part*> back = partsAlong(m_network.loop->back);
        std::ranges::reverse(back);
        row(back, m_area.y + 0.8 * m_area.height);
    }

    /// One part more, beside one that it is connected to; what is connected to nothing goes last.
    bool placeNext() {
        const Part* loose = nullptr;
        for (const Part& part : m_network.installation.parts) {
            if (!isShown(part) || isPlaced(part.id))
                continue;
            loose = loose == nullptr ? &part : loose;
            for (const std::string& other : m_neighbours[part.id])
                if (const Symbol* symbol = m_layout.findSymbol(other)) {
                    put(part, findFree(part, symbol->box.middle()));
                    return true;
                }
        }
        if (loose != nullptr)
            put(*loose, findFree(*loose, {m_area.middle().x, m_area.bottom() - 3 * m_unit}));
        return loose != nullptr;
    }

    /// The free place nearest to a point that leaves room for cables and names.
    [[nodiscard]] Point findFree(const Part& part, Point near) const {
        Point best = near;
        double best_price = std::numeric_limits<double>::infinity();
        const double step = 1.5 * m_unit;
        const int rows = static_cast<int>(std::ceil((m_area.height - 4.5 * m_unit) / step));
        const int columns = static_cast<int>(std::ceil((m_area.width - 8 * m_unit) / step));
        for (int row = 0; row < rows; ++row)
            for (int column = 0; column < columns; ++column) {
                const double x = m_area.x + 4 * m_unit + column * step;
                const double y = m_area.y + 2.5 * m_unit + row * step;
                const Box box = boxAround({x, y}, part, unitOf(part)).grown(2 * m_small);
                const bool taken = std::ranges::any_of(
                    m_layout.symbols, [&](const Symbol& one) { return one.box.overlaps(box); });
                const double away = distance({x, y}, near);
                // Neither squeezed against its neighbour nor level with it.
                const double price =
                    std::abs(away - 7 * m_unit) + (taken ? 1e4 : 0) - 0.2 * std::abs(y - near.y);
                if (price < best_price) {
                    best_price = price;
                    best = {x, y};
                }
            }
        return best;
    }

    /// Pushes apart what lies over one another, along the way the two lie to each other.
    void spread() {
        for (int round = 0; round < 300; ++round) {
            bool moved = false;
            for (std::size_t i = 0; i < m_layout.symbols.size(); ++i)
                for (std::size_t k = i + 1; k < m_layout.symbols.size(); ++k)
                    moved |= separate(m_layout.symbols[i], m_layout.symbols[k]);
            for (Symbol& symbol : m_layout.symbols)
                keepInside(symbol);
            if (!moved)
                return;
        }
    }

    /// The way they are pushed is that of their places to scale, so that they never change sides.
    [[nodiscard]] bool separate(Symbol& one, Symbol& other) const {
        const double air = (isBar(one) || isBar(other) ? 4.2 : 3.5) * m_small;
        const Point wish{other.wish.x - one.wish.x, other.wish.y - one.wish.y};
        const bool sideways = std::abs(wish.x) >= std::abs(wish.y) - 1e-6;
        const double sign = (sideways ? wish.x : wish.y) >= 0 ? 1 : -1;
        const Point apart{other.box.middle().x - one.box.middle().x,
                          other.box.middle().y - one.box.middle().y};
        const double need_x = (one.box.width + other.box.width) / 2 + air;
        const double need_y = (one.box.height + other.box.height) / 2 + air;
        if (std::abs(apart.x) >= need_x - 0.5 || std::abs(apart.y) >= need_y - 0.5)
            return false;
        const double push = (sideways ? need_x - sign * apart.x : need_y - sign * apart.y) / 2;
        (sideways ? one.box.x : one.box.y) -= sign * push;
        (sideways ? other.box.x : other.box.y) += sign * push;
        return true;
    }

    [[nodiscard]] static bool isBar(const Symbol& symbol) {
        return std::holds_alternative<BusBar>(symbol.part->body);
    }

    /// On the sheet, and inside the rooms if that is where it belongs.
    void keepInside(Symbol& symbol) const {
        const auto keep = [&](const Box& room) {
            Box& box = symbol.box;
            box.x = std::clamp(box.x, room.x, std::max(room.x, room.right() - box.width));
            box.y = std::clamp(box.y, room.y, std::max(room.y, room.bottom() - box.height));
        };
        keep(m_area.grown(-1.6 * m_unit));
        if (m_rooms && !isSmallPlan(m_area, m_unit) &&
            m_rooms->contains({symbol.wish.x, symbol.wish.y, 0, 0}))
            keep(m_rooms->grown(-0.8 * m_unit));
    }

    /// The rectangle around the outline of the rooms.
    [[nodiscard]] std::optional<Box> findRooms() const {
        const std::vector<Position>& outline = m_network.installation.plan.outline_m;
        if (outline.empty() || !m_layout.metres)
            return std::nullopt;
        Reach reach;
        for (const Position place : outline)
            reach.include(place);
        const Point corner = m_layout.metres->at({reach.left, reach.high});
        const double per_m = m_layout.metres->per_m;
        return Box{corner.x,
                   corner.y,
                   (reach.right - reach.left) * per_m,
                   (reach.high - reach.low) * per_m};
    }

    PlanLayout& m_layout;
    const Network& m_network;
    Box m_area;
    double m_unit;
    double m_small; ///< unit of all symbols without text
    std::optional<Box> m_rooms;
    std::map<std::string, std::vector<std::string>> m_neighbours;
};

} // namespace

const Symbol* PlanLayout::findSymbol(const std::string& part) const {
    for (const Symbol& symbol : symbols)
        if (symbol.part->id == part)
            return &symbol;
    return nullptr;
}

void placeSymbols(PlanLayout& layout, const Network& network, const Box& area, double unit) {
    Placing(layout, network, area, unit).place();
}

} // namespace ebbline::drawing
