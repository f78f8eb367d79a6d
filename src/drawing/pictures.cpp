// SPDX-License-Identifier: MIT
// What the pictures of a page have in common, and each of them alone.
#include "pictures.h"

#include "sentences.h"

#include "ebbline/text.h"

#include <algorithm>
#include <cmath>

namespace ebbline::drawing {
namespace {

using Draw = void (*)(const Site&);

Drawing drawAlone(const Moment& moment, const View& view, Draw draw) {
    Canvas canvas(view);
    canvas.begin("page");
    canvas.ground(canvas.area(), Ink::Desk);
    const double unit = unitFor(view);
    draw({canvas, moment, canvas.area().grown(-unit / 2), unit, view.bare});
    if (!view.bare)
        canvas.describe(text::escapeControls(moment.examination().network.installation.title),
                        headline(moment) + ".");
    return canvas.take();
}

} // namespace

double unitFor(const View& view) {
    return std::clamp(std::sqrt(view.width * view.height) / 80, 11.5, 30.0);
}

Style common(double unit) {
    return {unit, false, Ink::Line};
}
Style strong(double unit) {
    return {unit, true, Ink::Line};
}
Style quiet(double unit) {
    return {unit, false, Ink::Soft};
}

Pen outlinePen(Ink ink, double width, std::size_t which, double unit) {
    return {ink, width, {(which == 0 ? 0.35 : 1.0) * unit, 0.3 * unit}};
}

Box drawSheet(const Site& site) {
    site.canvas.polygon(rectangle(site.box), Ink::Sheet, Pen{Ink::Faint, 1, {}});
    return site.box.grown(-0.8 * site.unit);
}

Drawing plan(const Moment& moment, const View& view) {
    return drawAlone(moment, view, drawPlan);
}
Drawing gapChart(const Moment& moment, const View& view) {
    return drawAlone(moment, view, drawGapChart);
}
Drawing timeChart(const Moment& moment, const View& view) {
    return drawAlone(moment, view, drawTimeChart);
}

} // namespace ebbline::drawing
