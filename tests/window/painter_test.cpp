// SPDX-License-Identifier: MIT
// The window's painter against the one of SVG: the same picture, pixel by pixel, up to what edges
// and letters differ by when two programs draw them.
#include "drawn.h"
#include "pixels.h"
#include "runs.h"
#include "window/painter.h"

#include "ebbline/inquiry.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace ebbline;

namespace {

// Shares of pixels that differ. What two good paintings differ by, and what a line one pixel
// thicker, a text moved by two and a hatch left out come to:
constexpr double most_of_all = 0.02;      // at most 0.010 were found
constexpr double most_of_text = 0.32;     // at most 0.26; a heading moved: 0.37 to 0.43
constexpr double most_of_straight = 0.55; // at most 0.48; thicker: 0.78 to 0.99
constexpr double most_of_slanting = 0.12; // at most 0.06; thicker 0.19, left out 0.55 to 0.98

pixels::Pixels paintedBySvg(const Drawing& drawing) {
    const std::string png = drawing::writePng(drawing);
    sf::Image image;
    REQUIRE(image.loadFromMemory(png.data(), png.size()));
    return pixels::blurred(pixels::pixelsOf(image));
}

pixels::Pixels paintedByWindow(const Drawing& drawing, double zoom) {
    static window::Painter painter;
    sf::RenderTexture target;
    REQUIRE(target.create(static_cast<unsigned>(std::lround(drawing.width * zoom)),
                          static_cast<unsigned>(std::lround(drawing.height * zoom))));
    target.clear();
    painter.paint(target, drawing, zoom);
    target.display();
    return pixels::blurred(pixels::pixelsOf(target.getTexture().copyToImage()));
}

Box zoomed(const Box& box, double zoom) {
    return {box.x * zoom, box.y * zoom, box.width * zoom, box.height * zoom};
}

/// The drawing with every length so much larger.
Drawing zoomed(Drawing drawing, double zoom) {
    drawing.width *= zoom;
    drawing.height *= zoom;
    for (Group& group : drawing.groups)
        for (auto& item : group.items)
            if (auto* shape = std::get_if<Shape>(&item)) {
                for (Point& point : shape->points)
                    point = {point.x * zoom, point.y * zoom};
                for (double& length : shape->dash)
                    length *= zoom;
                shape->width *= zoom;
            } else if (auto* label = std::get_if<Label>(&item)) {
                label->box = zoomed(label->box, zoom);
                label->baseline_y *= zoom;
                label->size *= zoom;
            }
    return drawing;
}

Box boxAround(Point a, Point b) {
    const Box box{std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)};
    return box.grown(2);
}

bool isStraight(Point a, Point b) {
    return a.x == b.x || a.y == b.y;
}

class Findings {
public:
    Findings(const Drawing& shown, const pixels::Difference& difference)
        : m_difference(difference) {
        if (difference.share() >= most_of_all)
            m_all.push_back("of all " + std::to_string(difference.share()));
        for (const Group& group : shown.groups)
            for (const auto& item : group.items)
                std::visit([this](const auto& what) { look(what); }, item);
    }
    [[nodiscard]] const std::vector<std::string>& all() const { return m_all; }

private:
    void look(const Label& label) { look("'" + label.text + "'", label.box, most_of_text); }

    /// Every piece of its edge that is long enough to be told by.
    void look(const Shape& shape) {
        constexpr double least_length = 12;
        const std::size_t count = shape.points.size();
        for (std::size_t i = 0; shape.edge && i + (shape.closed ? 0 : 1) < count; ++i) {
            const Point a = shape.points[i];
            const Point b = shape.points[(i + 1) % count];
            if (std::hypot(a.x - b.x, a.y - b.y) >= least_length)
                look("a line",
                     boxAround(a, b),
                     isStraight(a, b) ? most_of_straight : most_of_slanting);
        }
    }

    void look(const std::string& what, const Box& box, double most) {
        if (const double share = m_difference.shareIn(box); share > most)
            m_all.push_back(what + " at " + std::to_string(box.x) + ", " + std::to_string(box.y) +
                            ": " + std::to_string(share));
    }

    const pixels::Difference& m_difference;
    std::vector<std::string> m_all;
};

/// What is not as shown in a painting of `painted`.
std::vector<std::string> findFaults(const Drawing& shown, const Drawing& painted, double zoom = 1) {
    const Drawing wanted = zoomed(shown, zoom);
    return Findings(wanted, {paintedBySvg(wanted), paintedByWindow(painted, zoom)}).all();
}

struct Kind {
    const char* name;
    Drawing (*draw)(const Moment&, const View&);
    View view;
};
constexpr std::array kinds{Kind{"page", drawing::page, {1280, 800}},
                           Kind{"plan", drawing::plan, {960, 540}},
                           Kind{"gap", drawing::gapChart, {960, 540}},
                           Kind{"time", drawing::timeChart, {960, 540}},
                           Kind{"room", drawing::room, {1280, 800}}};

Drawing pictureOf(const Kind& kind, const Inquiry& inquiry, Paper paper) {
    View view = kind.view;
    view.paper = paper;
    return kind.draw({inquiry, drawing::tellingMoment(inquiry.examination.start), {}}, view);
}

Inquiry inquire(Engine& engine, const std::string& scene) {
    return study::inquireBriefly(
        engine, drawn::scene(scene), file::embeddedModels(), {}, [](const std::string&) {});
}

std::vector<std::string> scenesToPaint() {
    return runs::isSanitised() ? std::vector<std::string>{"quay-02.toml"} : drawn::sceneNames();
}

/// Changes the first item that the change takes.
template <class Item>
Drawing damaged(Drawing drawing, bool (*change)(Item&)) {
    for (Group& group : drawing.groups)
        for (auto& item : group.items)
            if (auto* one = std::get_if<Item>(&item); one != nullptr && change(*one))
                return drawing;
    FAIL("there is nothing to damage");
    return drawing;
}

bool makeThicker(Shape& shape) {
    const bool is_line = shape.edge == Ink::Line && !shape.closed && shape.points.size() == 2 &&
                         isStraight(shape.points[0], shape.points[1]) &&
                         std::hypot(shape.points[0].x - shape.points[1].x,
                                    shape.points[0].y - shape.points[1].y) > 40;
    shape.width += is_line ? 1 : 0;
    return is_line;
}

bool moveHeading(Label& label) {
    const bool is_heading = label.bold && label.box.width > 100;
    label.box.x += is_heading ? 2 : 0;
    return is_heading;
}

bool isHatch(const Shape& shape) {
    return shape.edge == Ink::Warning && !shape.closed && shape.points.size() == 2 &&
           !isStraight(shape.points[0], shape.points[1]);
}

Drawing withoutHatch(Drawing drawing) {
    for (Group& group : drawing.groups)
        std::erase_if(group.items, [](const auto& item) {
            const auto* shape = std::get_if<Shape>(&item);
            return shape != nullptr && isHatch(*shape);
        });
    return drawing;
}

} // namespace

TEST_CASE("the window paints what pictures show", "[painter]") {
    const auto pool = runs::makePool();
    for (const std::string& name : scenesToPaint()) {
        const Inquiry inquiry = inquire(*pool, name);
        for (const Kind& kind : kinds)
            for (const Paper paper : {Paper::Light, Paper::Dark}) {
                CAPTURE(name, kind.name, paper);
                const Drawing shown = pictureOf(kind, inquiry, paper);
                for (const std::string& fault : findFaults(shown, shown))
                    FAIL_CHECK(fault);
            }
    }
}

TEST_CASE("so it does on a large screen and at any scale", "[painter]") {
    const auto pool = runs::makePool();
    const Inquiry inquiry = inquire(*pool, "quay-02.toml");
    for (const Paper paper : {Paper::Light, Paper::Dark}) {
        for (const Kind& kind : kinds) {
            CAPTURE(kind.name, paper);
            const Drawing shown = pictureOf(kind, inquiry, paper);
            for (const std::string& fault : findFaults(shown, shown, 1.5))
                FAIL_CHECK(fault);
        }
        const Drawing large =
            pictureOf({"large page", drawing::page, {3840, 2160}}, inquiry, paper);
        for (const std::string& fault : findFaults(large, large))
            FAIL_CHECK(fault);
    }
}

TEST_CASE("a painting that is a little wrong is found out", "[painter]") {
    const auto pool = runs::makePool();
    const Inquiry inquiry = inquire(*pool, "quay-02.toml");
    for (const Paper paper : {Paper::Light, Paper::Dark}) {
        const Drawing page = pictureOf(kinds[0], inquiry, paper);
        CHECK_FALSE(findFaults(page, damaged(page, makeThicker)).empty());
        CHECK_FALSE(findFaults(page, damaged(page, moveHeading)).empty());
        CHECK_FALSE(findFaults(page, withoutHatch(page)).empty());
    }
}
