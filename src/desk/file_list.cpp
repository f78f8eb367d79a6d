// SPDX-License-Identifier: MIT
// The list of files that can be opened.
#include "file_list.h"

#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::desk {
namespace {

using drawing::Canvas;
using drawing::Pen;

/// With its folder, since files of one name lie in several.
std::string nameOf(const Choice& choice) {
    const auto folder = std::filesystem::absolute(choice.path).parent_path().filename();
    return text::escapeControls((folder / choice.path.filename()).string());
}

class FileList {
public:
    FileList(Canvas& canvas, Sheet& sheet, const Desk& desk, const Box& box, double unit)
        : m_canvas(canvas), m_sheet(sheet), m_desk(desk), m_box(box), m_unit(unit),
          m_top(box.y + 3 * unit), m_row(1.8 * unit), m_beside(nameWidth() + unit) {}

    void draw() {
        drawHead();
        const std::size_t count = m_desk.choices().size();
        if (count == 0)
            m_canvas.write({words("There are no scenes here."), drawing::common(m_unit)},
                           {left(), m_top + 1.25 * m_unit});
        const auto rows = static_cast<std::size_t>(
            std::max(1.0, (m_box.bottom() - m_top - 2.2 * m_unit) / m_row));
        const std::size_t first =
            std::min(m_desk.chosen() < rows / 2 ? 0 : m_desk.chosen() - rows / 2,
                     count - std::min(count, rows));
        const std::size_t last = std::min(count, first + rows);
        for (std::size_t i = first; i < last; ++i)
            drawRow(i, m_top + static_cast<double>(i - first) * m_row);
        drawFoot(first, count - last);
    }

private:
    /// Of the longest name, as far as there is room for it.
    [[nodiscard]] double nameWidth() const {
        std::vector<drawing::TextLine> names;
        for (const Choice& choice : m_desk.choices())
            names.push_back({nameOf(choice), drawing::quiet(0.9 * m_unit)});
        return std::min(drawing::sizeOf(names).width, 0.35 * m_box.width);
    }

    [[nodiscard]] double left() const { return m_box.x + 1.5 * m_unit; }

    void drawHead() {
        const double y = m_box.y + 2.2 * m_unit;
        m_canvas.write({words("Open"), drawing::strong(1.4 * m_unit)}, {left(), y});
        m_canvas.write({words("arrow keys and Enter, or a click; B: lay it under"),
                        drawing::quiet(0.9 * m_unit)},
                       m_box.x,
                       m_box.width - 1.5 * m_unit,
                       y,
                       drawing::Align::Right);
    }

    void drawRow(std::size_t i, double y) {
        const Choice& choice = m_desk.choices()[i];
        const Box place{left() - 0.5 * m_unit, y, m_box.width - 2 * m_unit, m_row};
        if (i == m_desk.chosen())
            m_canvas.polygon(drawing::rectangle(place), Ink::Desk, Pen{Ink::Line, 1, {}});
        const std::string title =
            choice.is_lesson ? words("Lesson: {}", choice.title) : choice.title;
        write(title, drawing::common(m_unit), {left(), y}, place.width - m_beside - m_unit);
        write(nameOf(choice),
              drawing::quiet(0.9 * m_unit),
              {place.right() - m_beside, y},
              m_beside - m_unit);
        m_sheet.spots.push_back({.box = place, .handle = {}, .direction = 0, .choice = i});
    }

    void write(const std::string& text, const drawing::Style& style, Point corner, double room) {
        m_canvas.write(
            {drawing::shortened(text::escapeControls(text), style.size, style.bold, room), style},
            {corner.x, corner.y + 1.25 * m_unit});
    }

    /// What is not shown for want of room.
    void drawFoot(std::size_t above, std::size_t below) {
        const double y = m_box.bottom() - 0.9 * m_unit;
        const drawing::Style style = drawing::quiet(0.9 * m_unit);
        if (above > 0)
            m_canvas.write({words("{} more above", above), style}, {left(), y});
        if (below > 0)
            m_canvas.write({words("{} more below", below), style},
                           m_box.x,
                           m_box.width - 1.5 * m_unit,
                           y,
                           drawing::Align::Right);
    }

    Canvas& m_canvas;
    Sheet& m_sheet;
    const Desk& m_desk;
    Box m_box;
    double m_unit;
    double m_top; ///< of the first row
    double m_row;
    double m_beside; ///< width of what stands beside a title
};

} // namespace

void drawFiles(Canvas& canvas, Sheet& sheet, const Desk& desk, const Box& box, double unit) {
    FileList(canvas, sheet, desk, box, unit).draw();
}

} // namespace ebbline::desk
