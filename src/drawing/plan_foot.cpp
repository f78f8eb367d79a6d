// SPDX-License-Identifier: MIT
// Below the plan: the ruler and how to read a cable.
#include "plan_foot.h"

#include "font.h"
#include "ribbon.h"
#include "scale.h"

#include "ebbline/error.h"
#include "ebbline/text.h"
#include "ebbline/words.h"

#include <algorithm>

namespace ebbline::drawing {
namespace {

class Foot {
public:
    explicit Foot(const PlanScene& plan)
        : m_plan(plan), m_canvas(plan.canvas), m_unit(plan.unit), m_area(plan.area),
          m_style(quiet(0.9 * plan.unit)), m_y(plan.area.bottom() - 0.3 * plan.unit) {}

    void draw() {
        m_canvas.begin("ruler");
        const double right = m_plan.layout.metres ? drawRuler() : drawNoScale();
        if (!m_plan.site.bare)
            drawKey(right);
    }

private:
    /// Where the ruler begins: under the left edge of the rooms, so that it can be read off.
    [[nodiscard]] double rulerLeft(const MetreScale& metres) const {
        double left_m = 0;
        const auto& outline = m_plan.installation().plan.outline_m;
        if (!outline.empty())
            left_m = std::ranges::min(outline, {}, &Position::x_m).x_m;
        const double least = m_area.x + 0.8 * m_unit;
        const double left = metres.at({left_m, 0}).x;
        return left > m_area.x + 0.4 * m_area.width ? least : std::max(least, left);
    }

    /// Returns where it ends.
    double drawRuler() {
        const auto& metres = m_plan.layout.metres;
        EBBLINE_ASSERT(metres.has_value(), "a ruler needs a scale");
        const double per_m = metres->per_m;
        const double step = Scale{0, 1, 0, per_m}.tickStep(3.6 * m_unit);
        const double left = rulerLeft(*metres);
        const double most = m_area.x + 0.56 * m_area.width - left;
        const int count = std::clamp(static_cast<int>(most / (step * per_m)), 1, 10);
        const double right = left + count * step * per_m;
        const double line_y = m_y - 1.5 * m_unit;
        // Alternate stretches are filled, as on a surveyor's rod.
        for (int i = 0; i < count; ++i) {
            const Box piece{
                left + i * step * per_m, line_y - 0.18 * m_unit, step * per_m, 0.36 * m_unit};
            m_canvas.polygon(rectangle(piece),
                             i % 2 == 0 ? std::optional(Ink::Soft) : std::nullopt,
                             Pen{Ink::Soft, 1, {}});
        }
        for (int i = 0; i <= count; ++i) {
            const std::string number = text::fixed(i * step, step < 1 ? 1 : 0);
            const double x = left + i * step * per_m;
            m_canvas.write({i == count ? words("{} m", number) : number, m_style},
                           x - 2 * m_unit,
                           4 * m_unit,
                           m_y,
                           Align::Middle);
        }
        return right + 2.5 * m_unit;
    }

    double drawNoScale() {
        const std::string text = words("not to scale");
        m_canvas.write({text, m_style}, {m_area.x + 0.4 * m_unit, m_y});
        return m_area.x + textWidth(text, m_style.size, false) + 2 * m_unit;
    }

    /// Only where there is room for it.
    void drawKey(double left) {
        const std::string text = words("wide: thick cable; filled: what is left above the cut-out");
        const double sample = 4 * m_unit;
        const double x = m_area.right() - textWidth(text, m_style.size, false) - 0.4 * m_unit;
        if (x - sample - m_unit < left)
            return;
        m_canvas.begin("key");
        Trace trace{.role = RunRole::Twin, .width = 0.9 * m_unit};
        const double middle = m_y - 0.35 * m_unit;
        trace.line = {{x - sample - 0.7 * m_unit, middle}, {x - 0.7 * m_unit, middle}};
        std::vector<Point> hatched;
        drawRibbon(m_canvas, trace, Fill{1, 0.05}, m_unit, hatched);
        m_canvas.write({text, m_style}, {x, m_y});
    }

    const PlanScene& m_plan;
    Canvas& m_canvas;
    double m_unit;
    Box m_area;
    Style m_style;
    double m_y; ///< baseline of what is written
};

} // namespace

void drawFoot(const PlanScene& plan) {
    Foot(plan).draw();
}

} // namespace ebbline::drawing
