// SPDX-License-Identifier: MIT
// A part of the pictures, larger.
#include "ebbline/magnifier.h"

#include <catch2/catch.hpp>

using namespace ebbline;
using Catch::Matchers::WithinAbs;

namespace {

const Box area{0, 100, 1000, 600};

Drawing drawingWith(Point at) {
    Drawing drawing;
    drawing.groups = {
        {"page", "", "", {Shape{.points = {{0, 0}, {1000, 0}, {1000, 900}}, .closed = true}}},
        {"plan",
         "",
         "",
         {Shape{.points = {at, {at.x + 10, at.y}}, .width = 2, .dash = {3, 4}},
          Label{.text = "word", .box = {at.x, at.y, 40, 12}, .baseline_y = at.y + 9, .size = 12}}}};
    drawing.time_axes = {{{100, 200, 200, 100}, 0, 1}};
    drawing.terminals = {{{"fridge", "plus"}, at}};
    return drawing;
}

} // namespace

TEST_CASE("what lies under the pointer stays there", "[magnifier]") {
    Magnifier magnifier;
    const Point pointer{420, 310};
    magnifier.zoom(2, pointer, area);
    magnifier.zoom(1.5, pointer, area);
    Drawing drawing = drawingWith(pointer);
    magnifier.show(drawing, area);
    const auto& shape = std::get<Shape>(drawing.groups[1].items[0]);
    CHECK_THAT(shape.points[0].x, WithinAbs(pointer.x, 1e-9));
    CHECK_THAT(shape.points[0].y, WithinAbs(pointer.y, 1e-9));
    CHECK_THAT(shape.points[1].x, WithinAbs(pointer.x + 30, 1e-9));
    CHECK(shape.width == 6);
    CHECK(shape.dash == std::vector<double>{9, 12});
    const auto& label = std::get<Label>(drawing.groups[1].items[1]);
    CHECK(label.size == 36);
    CHECK_THAT(label.baseline_y, WithinAbs(pointer.y + 27, 1e-9));
    CHECK(drawing.terminals.front().at == shape.points[0]);
    CHECK_THAT(drawing.time_axes.front().box.width, WithinAbs(600, 1e-9));
}

TEST_CASE("the ground stays, what is outside is gone, what is cut loses its text", "[magnifier]") {
    Magnifier magnifier;
    magnifier.zoom(4, {0, 100}, area); // the upper left corner
    Drawing outside = drawingWith({600, 400});
    magnifier.show(outside, area);
    CHECK(outside.groups[0].items.size() == 1);
    CHECK(outside.groups[1].items.empty());
    CHECK(outside.terminals.empty());
    Drawing cut = drawingWith({235, 150}); // its text would reach beyond the right edge
    magnifier.show(cut, area);
    REQUIRE(cut.groups[1].items.size() == 1);
    CHECK(std::holds_alternative<Shape>(cut.groups[1].items[0]));
}

TEST_CASE("it never shows what lies beyond the pictures", "[magnifier]") {
    Magnifier magnifier;
    magnifier.pan(500, 500, area);
    Drawing drawing = drawingWith({300, 300});
    const Drawing before = drawing;
    magnifier.show(drawing, area);
    CHECK(drawing == before);
    magnifier.zoom(2, {500, 400}, area);
    magnifier.pan(1e6, -1e6, area); // as far as it goes: left and bottom
    drawing = drawingWith({0, 700});
    magnifier.show(drawing, area);
    CHECK(drawing.terminals.front().at == Point{0, 700});
    magnifier.zoom(1e-3, {10, 10}, area);
    CHECK_FALSE(magnifier.isOn());
    CHECK(magnifier.factor() == 1);
    magnifier.zoom(1e6, {10, 110}, area);
    CHECK(magnifier.factor() == 8);
    magnifier.fit();
    drawing = before;
    magnifier.show(drawing, area);
    CHECK(drawing == before);
}
