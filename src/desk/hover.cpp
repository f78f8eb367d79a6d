// SPDX-License-Identifier: MIT
// What lies under the pointer, and what it does at the moment.
#include "hover.h"

#include "cover.h"

#include "ebbline/canvas.h"
#include "ebbline/text.h"
#include "ebbline/whys.h"
#include "ebbline/words.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <optional>

namespace ebbline::desk {
namespace {

using drawing::TextLine;

double distanceTo(Point at, Point from, Point to) {
    const double x = to.x - from.x;
    const double y = to.y - from.y;
    const double square = x * x + y * y;
    const double share =
        square > 0 ? std::clamp(((at.x - from.x) * x + (at.y - from.y) * y) / square, 0.0, 1.0) : 0;
    return std::hypot(at.x - from.x - share * x, at.y - from.y - share * y);
}

/// By the number of edges to the right of the place.
bool isInside(const std::vector<Point>& polygon, Point at) {
    bool inside = false;
    for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
        const Point& a = polygon[i];
        const Point& b = polygon[j];
        if ((a.y > at.y) != (b.y > at.y) && at.x < (b.x - a.x) * (at.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    }
    return inside;
}

double distanceTo(const Shape& shape, Point at) {
    if (shape.closed && isInside(shape.points, at))
        return 0;
    double nearest = std::numeric_limits<double>::infinity();
    const std::size_t count = shape.points.size();
    for (std::size_t i = 0; i + (shape.closed ? 0 : 1) < count; ++i)
        nearest = std::min(nearest, distanceTo(at, shape.points[i], shape.points[(i + 1) % count]));
    return std::max(0.0, nearest - shape.width / 2);
}

/// What the elements of a thing carry and lose together.
struct Reading {
    double volts = 0;
    double amps = 0;
    bool is_found = false;
    bool is_wiring = false; ///< volts are lost in it, not across it
};

/// What is lost in it; across all others the frame holds the whole voltage.
bool isWiring(ElementKind kind) {
    return kind == ElementKind::Conductor || kind == ElementKind::Joint ||
           kind == ElementKind::Contact || kind == ElementKind::Fuse ||
           kind == ElementKind::Breaker || kind == ElementKind::Battery;
}

Reading readingOf(const Inquiry& inquiry, const std::string& thing, double at_s) {
    const Network& network = inquiry.examination.network;
    const bool is_run = network.installation.findRun(thing) != nullptr;
    const Frame frame = start::frameAt(inquiry.examination.start, at_s);
    Reading reading;
    for (std::size_t i = 0; i < network.elements.size(); ++i) {
        const Element& element = network.elements[i];
        // The joints at its ends are things of their own; an open way of a panel loses nothing.
        const bool is_its_own = element.part == thing &&
                                !(is_run && element.kind == ElementKind::Joint) &&
                                (element.kind != ElementKind::Contact || frame.amps[i] != 0);
        if (!is_its_own && element.name != thing)
            continue;
        reading.is_found = true;
        reading.is_wiring = reading.is_wiring || isWiring(element.kind);
        reading.volts += std::abs(frame.volts[i]);
        reading.amps = std::max(reading.amps, std::abs(frame.amps[i]));
    }
    return reading;
}

std::vector<TextLine>
linesFor(const Inquiry& inquiry, const std::string& thing, double at_s, double unit) {
    const Installation& installation = inquiry.examination.network.installation;
    const Reading reading = readingOf(inquiry, thing, at_s);
    std::vector<TextLine> lines{
        {drawing::nameOfThing(installation, thing), drawing::strong(1.05 * unit)}};
    if (!reading.is_found)
        return lines;
    const std::string volts = text::fixed(reading.volts, 2);
    const std::string amps = text::fixed(reading.amps, 2);
    constexpr double least_a = 0.01; // below it ohms say nothing
    if (!reading.is_wiring)
        lines.push_back({words("{} V across it, {} A", volts, amps), drawing::common(unit)});
    else if (reading.amps < least_a)
        lines.push_back({words("{} V lost, no current", volts), drawing::common(unit)});
    else
        lines.push_back({words("{} mΩ × {} A = {} V lost",
                               text::fixed(1e3 * reading.volts / reading.amps, 1),
                               amps,
                               volts),
                         drawing::common(unit)});
    lines.push_back({words("now, at {} s", text::fixed(at_s, 2)), drawing::quiet(0.9 * unit)});
    return lines;
}

std::vector<TextLine> whyLines(const Drawing& drawing, Point at, double unit) {
    std::vector<TextLine> lines;
    for (const Group& group : drawing.groups)
        for (const auto& item : group.items) {
            const auto* label = std::get_if<Label>(&item);
            if (label == nullptr || !label->box.contains({at.x, at.y, 0, 0}))
                continue;
            for (const Why& why : whysIn(label->text)) {
                lines.push_back({wordsOf(why).front(), drawing::strong(1.05 * unit)});
                for (TextLine& line :
                     drawing::wrapped(words(why.reason), drawing::common(unit), 28 * unit))
                    lines.push_back(std::move(line));
            }
        }
    return lines;
}

/// On that side of the pointer where the fewest texts are cut through; to its lower right if it is
/// all the same.
Box placeBeside(const Drawing& drawing, Point at, const Box& size, double unit) {
    const double rim = 0.5 * unit;
    std::optional<Box> best;
    std::size_t fewest = 0;
    for (const double y : {at.y + 1.2 * unit, at.y - 0.8 * unit - size.height})
        for (const double x : {at.x + 1.2 * unit, at.x - 0.8 * unit - size.width}) {
            const Box box{std::clamp(x, rim, drawing.width - size.width - rim),
                          std::clamp(y, rim, drawing.height - size.height - rim),
                          size.width,
                          size.height};
            const std::size_t cuts = countCuts(drawing, box);
            if (!best || cuts < fewest) {
                best = box;
                fewest = cuts;
            }
        }
    return *best;
}

} // namespace

std::string findThing(const Drawing& drawing, Point at, double reach) {
    std::string found;
    double nearest = reach;
    for (const Group& group : drawing.groups) {
        if (group.id.empty() ||
            (group.role != "part" && group.role != "run" && group.role != "joint"))
            continue;
        for (const auto& item : group.items)
            if (const auto* shape = std::get_if<Shape>(&item))
                if (const double distance = distanceTo(*shape, at); distance <= nearest) {
                    nearest = distance;
                    found = group.id;
                }
    }
    return found;
}

void drawHover(Sheet& sheet, const Desk& desk, double unit) {
    const Point at = desk.pointer().value_or(Point{});
    const bool is_over_pictures = sheet.pictures.contains({at.x, at.y, 0, 0});
    const std::string thing =
        is_over_pictures ? findThing(sheet.drawing, at, 0.5 * unit) : std::string();
    auto lines = thing.empty() ? whyLines(sheet.drawing, at, unit)
                               : linesFor(desk.now()->inquiry, thing, desk.player().at(), unit);
    if (lines.empty())
        return;
    Drawing& drawing = sheet.drawing;
    drawing::Canvas canvas({drawing.width, drawing.height, drawing.paper});
    const Box size = drawing::sizeOf(lines);
    const Box box = placeBeside(
        drawing, at, {.width = size.width + 1.4 * unit, .height = size.height + unit}, unit);
    clearUnder(drawing, box);
    canvas.begin("hover", thing);
    canvas.polygon(drawing::rectangle(box), Ink::Sheet, drawing::Pen{Ink::Line, 1.4, {}});
    canvas.write(lines,
                 {box.x + 0.7 * unit, box.y + 0.5 * unit, size.width, size.height},
                 drawing::Align::Left);
    std::ranges::move(canvas.take().groups, std::back_inserter(drawing.groups));
}

} // namespace ebbline::desk
