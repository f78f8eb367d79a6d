// SPDX-License-Identifier: MIT
// All whys on one card.
#include "why_list.h"

#include "ebbline/whys.h"
#include "ebbline/words.h"

#include <array>

namespace ebbline::desk {
namespace {

using drawing::TextLine;

constexpr std::size_t columns = 3;
constexpr double line_height = 1.28; // of the size of its text

using Entry = std::vector<TextLine>;

std::vector<Entry> entriesOf(double width, double unit) {
    std::vector<Entry> entries;
    for (const Why& why : allWhys()) {
        Entry entry{{wordsOf(why).front(), drawing::strong(unit)}};
        for (TextLine& line : drawing::wrapped(words(why.reason), drawing::common(unit), width))
            entry.push_back(std::move(line));
        entries.push_back(std::move(entry));
    }
    return entries;
}

double heightOf(const Entry& entry, double unit) {
    return (static_cast<double>(entry.size()) * line_height + 0.45) * unit;
}

/// The first entry of each column, and one behind the last; nothing where they do not fit.
std::vector<std::size_t> breaksOf(const std::vector<Entry>& entries, double height, double unit) {
    std::vector<std::size_t> breaks{0};
    double used = 0;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const double next = heightOf(entries[i], unit);
        if (used + next > height) {
            breaks.push_back(i);
            used = 0;
        }
        used += next;
    }
    breaks.push_back(entries.size());
    return breaks.size() <= columns + 1 ? breaks : std::vector<std::size_t>();
}

} // namespace

void drawWhys(drawing::Canvas& canvas, const Box& box, double unit) {
    const double gap = 1.5 * unit;
    canvas.write({words("Words"), drawing::strong(1.4 * unit)}, {box.x + gap, box.y + 2.2 * unit});
    const double top = box.y + 3.2 * unit;
    const double width = (box.width - (columns + 1) * gap) / columns;
    for (const double factor : {1.15, 1.08, 1.0, 0.94, 0.88, 0.82, 0.76, 0.7}) {
        const double size = factor * unit;
        const std::vector<Entry> entries = entriesOf(width, size);
        const auto breaks = breaksOf(entries, box.bottom() - unit - top, size);
        for (std::size_t column = 0; column + 1 < breaks.size(); ++column) {
            double y = top;
            for (std::size_t i = breaks[column]; i < breaks[column + 1]; ++i) {
                for (const TextLine& line : entries[i]) {
                    y += line_height * size;
                    canvas.write(line,
                                 {box.x + gap + static_cast<double>(column) * (width + gap), y});
                }
                y += 0.45 * size;
            }
        }
        if (!breaks.empty())
            return;
    }
}

} // namespace ebbline::desk
