// SPDX-License-Identifier: MIT
// The foot of the sheet: what plays, and what can be turned.
#include "foot.h"

#include "cover.h"

#include "ebbline/canvas.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>
#include <array>
#include <iterator>

namespace ebbline::desk {
namespace {

using drawing::Align;
using drawing::Canvas;
using drawing::Pen;
using drawing::Style;

std::string playsWords(Pace pace) {
    switch (pace) {
    case Pace::Stretched:
        return words("plays stretched to eight seconds");
    case Pace::Slow:
        return words("plays ten times slower than life");
    case Pace::Life:
        return words("plays as in life");
    case Pace::Fast:
        return words("plays faster than life");
    case Pace::Events:
        return words("goes from event to event");
    }
    return "";
}

std::string paceName(Pace pace) {
    constexpr std::array names{phrase("stretched"),
                               phrase("slow"),
                               phrase("as in life"),
                               phrase("fast"),
                               phrase("event by event")};
    static_assert(names.size() == all_paces);
    return words(names[static_cast<std::size_t>(pace)]);
}

class Foot {
public:
    Foot(Sheet& sheet, const Desk& desk, double unit)
        : m_sheet(sheet), m_desk(desk),
          m_canvas(View{sheet.drawing.width, sheet.drawing.height, sheet.drawing.paper}),
          m_unit(unit), m_area{1.1 * unit,
                               sheet.drawing.height - foot_units * unit,
                               sheet.drawing.width - 2.2 * unit,
                               (foot_units - 0.8) * unit} {}

    void draw() {
        drawHandles(drawTransport());
        drawBand();
        std::ranges::move(m_canvas.take().groups, std::back_inserter(m_sheet.drawing.groups));
    }

private:
    [[nodiscard]] std::string stateWords() const {
        if (m_desk.isOld())
            return words("still the start before the last change");
        if (m_desk.now()->inquiry.examination.accuracy == Accuracy::Draft)
            return words("draft; the final run follows");
        const Player& player = m_desk.player();
        if (player.isPlaying() && player.loop())
            return words("plays round: {} s to {} s",
                         text::fixed(player.loop()->from_s, 2),
                         text::fixed(player.loop()->to_s, 2));
        if (player.isPlaying())
            return playsWords(player.pace());
        if (player.at() == player.timeline().worst_s)
            return words("stands at the moment that says most");
        return words("stands still");
    }

    /// Which keys matter now.
    [[nodiscard]] std::string hint() const {
        if (m_desk.revealed() != Reveal::Everything)
            return words("Enter: reveal · 0 … 9: hands · C: end");
        if (m_desk.magnifier().isOn())
            return words("Esc: all of it again · ?: help");
        return words("P: {} · ?: help", paceName(m_desk.player().pace()));
    }

    /// Returns where the handles begin.
    double drawTransport() {
        const double width = std::max(15 * m_unit, 0.2 * m_area.width);
        m_canvas.begin("transport");
        const Player& player = m_desk.player();
        const double y = m_area.y;
        const double side = 2.6 * m_unit;
        const Box button{m_area.x, y, side, side};
        m_canvas.polygon(drawing::rectangle(button), Ink::Sheet, Pen{Ink::Line, 1.2, {}});
        drawSign(button, player.isPlaying());
        m_sheet.spots.push_back({.box = button, .handle = {}, .direction = 0, .choice = {}});
        const double left = button.right() + 0.7 * m_unit;
        const double room = m_area.x + width - left - m_unit;
        write(player.isPlaying() ? words("Space: halt") : words("Space: play"),
              {1.05 * m_unit, true, Ink::Line},
              {left, y + m_unit},
              room);
        const auto state = drawing::wrapped(stateWords(), drawing::quiet(0.9 * m_unit), room);
        m_canvas.write(
            state, {left, y + 1.7 * m_unit, room, drawing::sizeOf(state).height}, Align::Left);
        write(hint(), drawing::quiet(0.9 * m_unit), {m_area.x, y + 4.8 * m_unit}, width - m_unit);
        return m_area.x + width;
    }

    /// Across the whole width above the foot, so that it can be read to its end: what is wrong,
    /// else what has been done.
    void drawBand() {
        const bool is_wrong = !m_desk.obstacle().empty();
        const std::string& told = is_wrong ? m_desk.obstacle() : m_desk.notice();
        if (told.empty())
            return;
        const Ink ink = is_wrong ? Ink::Warning : Ink::Line;
        const double room = m_area.width - 2 * m_unit;
        const auto lines =
            drawing::wrapped(text::escapeControls(told), {1.1 * m_unit, true, ink}, room);
        const Box size = drawing::sizeOf(lines);
        const Box box{m_area.x,
                      m_area.y - size.height - 1.6 * m_unit,
                      m_area.width,
                      size.height + 1.2 * m_unit};
        clearUnder(m_sheet.drawing, box);
        m_canvas.begin("band");
        m_canvas.polygon(drawing::rectangle(box), Ink::Sheet, Pen{ink, 1.6, {}});
        m_canvas.write(
            lines, {box.x + m_unit, box.y + 0.6 * m_unit, size.width, size.height}, Align::Left);
    }

    /// A triangle, or two bars.
    void drawSign(const Box& box, bool is_playing) {
        const Box inner = box.grown(-0.28 * box.width);
        if (!is_playing) {
            m_canvas.polygon(
                {{inner.x, inner.y}, {inner.right(), inner.middle().y}, {inner.x, inner.bottom()}},
                Ink::Line,
                std::nullopt);
            return;
        }
        for (const double x : {inner.x, inner.right() - 0.35 * inner.width})
            m_canvas.polygon(drawing::rectangle({x, inner.y, 0.35 * inner.width, inner.height}),
                             Ink::Line,
                             std::nullopt);
    }

    void drawHandles(double left) {
        const auto& handles = m_desk.handles();
        if (m_desk.revealed() != Reveal::Everything) // a card could tell
            return;
        if (m_desk.greeting() != Welcome::Over) {
            drawWelcome(left);
            return;
        }
        const double gap = 0.6 * m_unit;
        const double width =
            (m_area.right() - left + gap) / static_cast<double>(all_handles.size()) - gap;
        for (const Handle& handle : handles) {
            const double place = static_cast<double>(handle.kind);
            drawHandle(handle, {left + place * (width + gap), m_area.y, width, m_area.height});
        }
    }

    /// One card, and what to do with it.
    void drawWelcome(double left) {
        const double width = 15 * m_unit;
        for (const Handle& handle : m_desk.handles())
            if (handle.kind == HandleKind::Area)
                drawHandle(handle, {left, m_area.y, width, m_area.height});
        const double text = left + width + 1.2 * m_unit;
        const std::string say =
            m_desk.greeting() == Welcome::OneHandle
                ? words("This fridge has just given up. Make its cable thicker "
                        "until it starts: key Q, "
                        "or a click on the right half of the card.")
                : words("It starts: the thicker cable loses less. Enter brings the other cards; ? "
                        "lists all keys, L the other scenes.");
        double y = m_area.y + 0.2 * m_unit;
        for (const drawing::TextLine& line :
             drawing::wrapped(say, {1.25 * m_unit, true, Ink::Line}, m_area.right() - text)) {
            y += 1.6 * m_unit;
            m_canvas.write(line, {text, y});
        }
    }

    void drawHandle(const Handle& handle, const Box& box) {
        m_canvas.begin("handle", handle.on);
        m_canvas.polygon(
            drawing::rectangle(box),
            Ink::Sheet,
            Pen{handle.isTurned() ? Ink::Line : Ink::Faint, handle.isTurned() ? 1.6 : 1.0, {}});
        const double left = box.x + 0.6 * m_unit;
        const double room = box.width - 1.2 * m_unit;
        const Rung& now = handle.rungs[handle.at];
        write(
            nameOf(handle.kind), drawing::quiet(0.9 * m_unit), {left, box.y + 1.2 * m_unit}, room);
        write(now.text, drawing::strong(1.15 * m_unit), {left, box.y + 2.65 * m_unit}, room);
        if (handle.isTurned())
            write(words("drawn: {}", handle.rungs[handle.drawn].text),
                  drawing::quiet(0.85 * m_unit),
                  {left, box.y + 3.75 * m_unit},
                  room);
        drawKeys(handle, box);
    }

    void drawKeys(const Handle& handle, const Box& box) {
        const HandleKeys keys = keysOf(handle.kind);
        const double side = 1.35 * m_unit;
        const double y = box.bottom() - side - 0.25 * m_unit;
        const Style style{0.9 * m_unit, true, Ink::Line};
        const double half = box.width / 2;
        for (const bool is_up : {false, true}) {
            const double x = is_up ? box.right() - 0.6 * m_unit - side : box.x + 0.6 * m_unit;
            const Box key{x, y, side, side};
            m_canvas.polygon(drawing::rectangle(key), Ink::Desk, Pen{Ink::Soft, 1, {}});
            m_canvas.write({std::string(1, is_up ? keys.up : keys.down), style},
                           key.x,
                           side,
                           key.y + 1.02 * m_unit,
                           Align::Middle);
            m_sheet.spots.push_back({{is_up ? box.x + half : box.x, box.y, half, box.height},
                                     handle.kind,
                                     is_up ? 1 : -1});
        }
    }

    void write(const std::string& text, const Style& style, Point left, double room) {
        m_canvas.write({drawing::shortened(text, style.size, style.bold, room), style}, left);
    }

    Sheet& m_sheet;
    const Desk& m_desk;
    Canvas m_canvas;
    double m_unit;
    Box m_area;
};

} // namespace

void drawFoot(Sheet& sheet, const Desk& desk, double unit) {
    Foot(sheet, desk, unit).draw();
}

} // namespace ebbline::desk
