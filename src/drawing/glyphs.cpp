// SPDX-License-Identifier: MIT
// Signs of parts, after IEC 60617 where it has one.
#include "geometry.h"
#include "symbols.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

/// Draws inside one box; places are shares of it, x along the way through the part.
class Glyph {
public:
    Glyph(Canvas& canvas, const Symbol& symbol, double unit)
        : m_canvas(canvas), m_symbol(symbol), m_unit(unit), m_pen{Ink::Line, 0.1 * unit, {}} {
        const Point out = symbol.ports.empty() ? to_left : symbol.ports.front().out;
        m_upright = out.y != 0;
        m_reversed = out.x > 0 || out.y > 0;
    }

    void operator()(const Battery&) const {
        outline();
        // Two cells: long plate plus, short plate minus, along the box in reading order.
        for (const double x : {0.36, 0.56})
            plate(x, 0.5);
        for (const double x : {0.44, 0.64})
            plate(x, 0.24);
        const Box& box = m_symbol.box;
        const double y = box.middle().y;
        stroke({box.x + 0.18 * box.width, y}, {box.x + 0.36 * box.width, y});
        stroke({box.x + 0.64 * box.width, y}, {box.x + 0.82 * box.width, y});
    }
    void operator()(const Charger&) const {
        outline();
        // The slanting line of a converter, clear of the poles.
        const Point out = m_symbol.ports.empty() ? Point{} : m_symbol.ports.front().out;
        const Point middle = m_symbol.box.middle();
        const Point arm{0.24 * m_symbol.box.width, 0.24 * m_symbol.box.height};
        const Point from{middle.x - 0.6 * m_unit * out.x, middle.y - 0.5 * m_unit * out.y};
        stroke({from.x - arm.x, from.y + arm.y}, {from.x + arm.x, from.y - arm.y});
    }
    void operator()(const Controller&) const { outline(); }
    void operator()(const Load&) const {
        const Box& box = m_symbol.box;
        outline();
        const double radius = 0.28 * std::min(box.width, box.height);
        const Point middle = box.middle();
        m_canvas.polygon(circle(middle, radius), std::nullopt, m_pen);
        const double arm = radius * std::sqrt(0.5);
        stroke({middle.x - arm, middle.y - arm}, {middle.x + arm, middle.y + arm});
        stroke({middle.x - arm, middle.y + arm}, {middle.x + arm, middle.y - arm});
    }
    void operator()(const Fuse& fuse) const {
        outline();
        if (!fuse.blown)
            return stroke(at(0, 0.5), at(1, 0.5));
        stroke(at(0, 0.5), at(0.3, 0.5));
        stroke(at(0.7, 0.5), at(1, 0.5));
    }
    void operator()(const Isolator& isolator) const { lever(isolator.closed); }
    void operator()(const Thermostat& thermostat) const {
        lever(thermostat.closed);
        m_canvas.polygon(circle(at(0.5, 0.86), 0.16 * m_unit), Ink::Sheet, m_pen);
    }
    void operator()(const Breaker& breaker) const {
        lever(!breaker.tripped);
        const Point middle = at(0.28, 0.5);
        const double arm = 0.22 * m_unit;
        stroke({middle.x - arm, middle.y - arm}, {middle.x + arm, middle.y + arm});
        stroke({middle.x - arm, middle.y + arm}, {middle.x + arm, middle.y - arm});
    }
    void operator()(const Panel& panel) const {
        outline();
        const Box& box = m_symbol.box;
        for (std::size_t i = 0; i < panel.ways.size(); ++i)
            if (const Port* port = m_symbol.findPort(std::to_string(i + 1))) {
                const Point in = inwards(*port, 0.35);
                const Point far = inwards(*port, 1.2);
                stroke(port->at, in);
                stroke(in, panel.ways[i].closed ? far : Point{far.x, far.y - 0.5 * m_unit});
            }
        if (m_upright)
            stroke({box.x + 0.3 * m_unit, box.middle().y},
                   {box.right() - 0.3 * m_unit, box.middle().y});
        else
            stroke({box.middle().x, box.y + 0.3 * m_unit},
                   {box.middle().x, box.bottom() - 0.3 * m_unit});
    }
    void operator()(const BusBar&) const {
        m_canvas.polygon(rectangle(m_symbol.box), Ink::Sheet, Pen{Ink::Line, 0.16 * m_unit, {}});
    }
    void operator()(const Stud&) const {
        m_canvas.polygon(circle(m_symbol.box.middle(), 0.6 * m_unit), Ink::Sheet, m_pen);
        m_canvas.polygon(circle(m_symbol.box.middle(), 0.2 * m_unit), Ink::Line, std::nullopt);
    }
    void operator()(const Splice&) const {
        outline();
        stroke(at(0.5, 0), at(0.5, 1));
    }
    void operator()(const Plug& plug) const {
        outline();
        const double gap = plug.mated ? 0.04 : 0.2;
        for (const double y : {0.3, 0.7}) {
            stroke(at(0, y), at(0.5 - gap, y));
            stroke(at(0.5 + gap, y), at(1, y));
            m_canvas.polygon(circle(at(0.5, y), 0.18 * m_unit), Ink::Sheet, m_pen);
        }
    }
    void operator()(const Bond&) const {
        // Frame or chassis: a bar with slanting strokes below it.
        const Box& box = m_symbol.box;
        const double y = box.middle().y;
        stroke({box.x, y}, {box.right(), y});
        for (const double share : {0.15, 0.55, 0.95})
            stroke({box.x + share * box.width, y},
                   {box.x + (share - 0.2) * box.width, box.bottom()});
        stroke({box.middle().x, box.y}, {box.middle().x, y});
    }
    void operator()(const BenchLeads&) const {
        outline();
        for (const double y : {0.3, 0.7})
            stroke(at(0, y), at(1, y));
    }
    template <class Other>
    void operator()(const Other&) const {
        outline();
    }

private:
    [[nodiscard]] Point at(double along, double across) const {
        const Box& box = m_symbol.box;
        if (m_reversed)
            along = 1 - along;
        return m_upright ? Point{box.x + across * box.width, box.y + along * box.height}
                         : Point{box.x + along * box.width, box.y + across * box.height};
    }
    [[nodiscard]] Point inwards(const Port& port, double units) const {
        return {port.at.x - port.out.x * units * m_unit, port.at.y - port.out.y * units * m_unit};
    }
    void stroke(Point from, Point to) const { m_canvas.line({from, to}, m_pen); }
    void outline() const { m_canvas.polygon(rectangle(m_symbol.box), Ink::Sheet, m_pen); }
    void plate(double x, double height) const {
        const Box& box = m_symbol.box;
        const double y = box.middle().y;
        const double half = height / 2 * box.height;
        m_canvas.line({{box.x + x * box.width, y - half}, {box.x + x * box.width, y + half}},
                      {Ink::Line, 0.14 * m_unit, {}});
    }
    void lever(bool closed) const {
        m_canvas.polygon(rectangle(m_symbol.box), Ink::Sheet, Pen{Ink::Faint, 1, {}});
        stroke(at(0, 0.5), at(0.28, 0.5));
        stroke(at(0.72, 0.5), at(1, 0.5));
        stroke(at(0.28, 0.5), at(closed ? 0.74 : 0.68, closed ? 0.42 : 0.08));
    }

    Canvas& m_canvas;
    const Symbol& m_symbol;
    double m_unit;
    Pen m_pen;
    bool m_upright = false;
    bool m_reversed = false;
};

bool hasPoles(const Part& part) {
    return std::holds_alternative<Battery>(part.body) ||
           std::holds_alternative<Controller>(part.body) ||
           std::holds_alternative<Load>(part.body) || std::holds_alternative<Charger>(part.body);
}

/// Plus and minus just inside the box, at their ports.
void markPoles(Canvas& canvas, const Symbol& symbol, double unit) {
    const Pen pen{Ink::Line, 0.15 * unit, {}};
    const double arm = 0.3 * unit;
    for (const Port& port : symbol.ports) {
        const bool is_plus = port.terminal == "plus";
        if (!is_plus && port.terminal != "minus")
            continue;
        const Point at{port.at.x - 0.6 * unit * port.out.x, port.at.y - 0.6 * unit * port.out.y};
        canvas.line({{at.x - arm, at.y}, {at.x + arm, at.y}}, pen);
        if (is_plus)
            canvas.line({{at.x, at.y - arm}, {at.x, at.y + arm}}, pen);
    }
}

} // namespace

void drawSymbol(Canvas& canvas, const Symbol& symbol, double unit, const Caption& caption) {
    std::visit(Glyph(canvas, symbol, unit), symbol.part->body);
    if (hasPoles(*symbol.part))
        markPoles(canvas, symbol, unit);
    if (caption.lines.empty())
        return;
    const Box size = sizeOf(caption.lines);
    const Point middle = symbol.box.middle();
    // The poles take up a strip along their side.
    Point shift{0, 0};
    if (!symbol.ports.empty()) {
        const Point out = symbol.ports.front().out;
        shift = {-0.45 * unit * out.x, -0.45 * unit * out.y};
    }
    canvas.write(caption.lines,
                 {middle.x + shift.x - size.width / 2,
                  middle.y + shift.y - size.height / 2,
                  size.width,
                  size.height},
                 Align::Middle);
}

} // namespace ebbline::drawing
