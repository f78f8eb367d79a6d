// SPDX-License-Identifier: MIT
// Which dashes are whose, in a row of a chart.
#include "outline_key.h"

#include "font.h"
#include "pictures.h"

#include <algorithm>

namespace ebbline::drawing {

bool drawOutlineKey(Canvas& canvas,
                    const std::vector<OutlineName>& outlines,
                    const Box& box,
                    double unit) {
    const double sample = 2.4 * unit;
    const double gap = 0.5 * unit;
    const double size = 0.95 * unit;
    double needed = 0;
    for (const OutlineName& outline : outlines)
        needed += sample + 3 * gap + textWidth(outline.name, size, false);
    if (needed > box.width || !canvas.isFree({box.x, box.y, needed, box.height}))
        return false;
    double x = box.x;
    for (const auto& [which, name] : outlines) {
        canvas.begin("beside");
        const double y = box.bottom() - 0.33 * unit;
        canvas.line({{x, y}, {x + sample, y}}, outlinePen(Ink::Soft, 0.1 * unit, which, unit));
        x += sample + gap;
        canvas.write({name, common(size)}, {x, box.bottom()});
        x += textWidth(name, size, false) + 2 * gap;
    }
    return true;
}

} // namespace ebbline::drawing
