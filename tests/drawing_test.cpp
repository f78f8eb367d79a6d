// SPDX-License-Identifier: MIT
// The pieces that pictures are made of: geometry, places for text, ways for cables, curves, SVG.
#include "drawing/curve.h"
#include "drawing/figures.h"
#include "drawing/font.h"
#include "drawing/geometry.h"
#include "drawing/placer.h"
#include "drawing/router.h"
#include "drawing/scale.h"
#include "legible.h"

#include "ebbline/canvas.h"
#include "ebbline/drawing.h"

#include <catch2/catch.hpp>
#include <ft2build.h>
#include FT_FREETYPE_H

#include <clocale>
#include <cmath>
#include <locale>
#include <random>

using namespace ebbline;
using namespace ebbline::drawing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;

namespace {

Drawing withLabel(const std::string& text) {
    Drawing drawing{.width = 200, .height = 100, .title = text, .meaning = text};
    drawing.groups.push_back({text, text, text, {}});
    drawing.groups.back().items.emplace_back(Label{text, {10, 10, 50, 12}, 20, 12, false, {}});
    return drawing;
}

/// A picture with everything that has numbers in it.
Drawing withNumbers() {
    Drawing drawing = withLabel("1.5 mm²");
    drawing.groups.back().items.emplace_back(
        Shape{{{1.25, 2.5}, {1234.567, 3}}, false, {}, Ink::Line, 0.75, {1.5, 2.25}});
    return drawing;
}

struct CommaPoint : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

int countBends(const std::vector<Point>& line) {
    return static_cast<int>(simplified(line).size()) - 2;
}

bool isUpright(const std::vector<Point>& line) {
    for (std::size_t i = 1; i < line.size(); ++i)
        if (std::abs(line[i].x - line[i - 1].x) > 1e-6 &&
            std::abs(line[i].y - line[i - 1].y) > 1e-6)
            return false;
    return true;
}

} // namespace

TEST_CASE("a straight piece touches a box it crosses, and no other", "[drawing]") {
    const Box box{10, 10, 20, 10};
    CHECK(touches({0, 15}, {40, 15}, 0, box));
    CHECK(touches({15, 12}, {16, 13}, 0, box));
    CHECK(touches({0, 0}, {40, 30}, 0, box));
    CHECK_FALSE(touches({0, 9}, {40, 9}, 0.5, box));
    CHECK(touches({0, 9}, {40, 9}, 1.5, box));
    CHECK_FALSE(touches({0, 15}, {9, 15}, 0.5, box));
    CHECK_FALSE(touches({0, 30}, {12, 40}, 0, box));
}

TEST_CASE("a piece of a line begins and ends where it is told", "[drawing]") {
    const std::vector<Point> line{{0, 0}, {10, 0}, {10, 10}};
    CHECK(lengthOf(line) == 20);
    CHECK(pieceOf(line, 5, 15) == std::vector<Point>{{5, 0}, {10, 0}, {10, 5}});
    CHECK(pieceOf(line, 20, 30).empty());
}

TEST_CASE("a parallel keeps its distance round corners", "[drawing]") {
    const std::vector<Point> line{{0, 0}, {10, 0}, {10, 10}};
    CHECK(parallel(line, 2, 2) == std::vector<Point>{{0, 2}, {8, 2}, {8, 10}});
    CHECK(parallel(line, -2, -2) == std::vector<Point>{{0, -2}, {12, -2}, {12, 10}});
}

TEST_CASE("a way that turns back on itself is cut short", "[drawing]") {
    CHECK(withoutReturns(std::vector<Point>{{0, 0}, {10, 0}, {4, 0}, {4, 5}}) ==
          std::vector<Point>{{0, 0}, {4, 0}, {4, 5}});
    CHECK(simplified(std::vector<Point>{{0, 0}, {5, 0}, {5, 0}, {9, 0}}) ==
          std::vector<Point>{{0, 0}, {9, 0}});
}

TEST_CASE("hatch fills a polygon and stays inside it", "[drawing]") {
    const std::vector<Point> shape{{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}};
    const auto lines = hatchLines(shape, 4);
    REQUIRE(lines.size() > 5);
    double length = 0;
    for (const auto& [from, to] : lines) {
        length += distance(from, to);
        for (const double share : {0.05, 0.5, 0.95}) {
            const Point at = between(from, to, share);
            CHECK((at.x >= 0 && at.y >= 0 && (at.x <= 10 || at.y <= 10)));
        }
    }
    // Lines at 45 degrees whose levels lie 4 apart: area / (4 / sqrt 2).
    CHECK_THAT(length, WithinAbs(500 / (4 / std::sqrt(2)), 25));
}

TEST_CASE("a curve that leaves its chart is cut at the edge, not drawn along it", "[drawing]") {
    const std::vector<Point> line{{0, 5}, {10, 15}, {20, 15}, {30, 5}};
    const auto pieces = clipped(line, 0, 10);
    REQUIRE(pieces.size() == 2);
    CHECK(pieces[0] == std::vector<Point>{{0, 5}, {5, 10}});
    CHECK(pieces[1] == std::vector<Point>{{25, 10}, {30, 5}});
    CHECK(clipped(std::vector<Point>{{0, 20}, {10, 20}}, 0, 10).empty());
}

TEST_CASE("a thinned curve keeps its extremes", "[drawing]") {
    std::vector<double> times;
    std::vector<double> values;
    for (int i = 0; i <= 10'000; ++i) {
        times.push_back(i * 1e-3);
        values.push_back(i == 5003 ? -4.0 : std::sin(i * 0.01));
    }
    const std::vector<Point> points =
        thinned(times, values, Scale{0, 10, 0, 100}, Scale{-5, 5, 0, 100});
    CHECK(points.size() < 500);
    CHECK_THAT(std::ranges::min(points, {}, &Point::y).y, WithinAbs(10, 1e-9));
    CHECK_THAT(points.front().x, WithinAbs(0, 1e-9));
    CHECK_THAT(points.back().x, WithinAbs(100, 1e-9));
}

TEST_CASE("ticks are round and far enough apart", "[drawing]") {
    const Scale scale{9.7, 12.9, 300, 0};
    CHECK(scale.tickStep(40) == 0.5);
    const std::vector<double> ticks = scale.ticks(40);
    REQUIRE(ticks.size() == 6);
    CHECK_THAT(ticks.front(), WithinAbs(10, 1e-9));
    CHECK_THAT(ticks.back(), WithinAbs(12.5, 1e-9));
}

TEST_CASE("the placer writes nothing over a line or a text, and says so where it cannot",
          "[drawing]") {
    Canvas canvas({400, 300, Paper::Light});
    canvas.begin("test");
    std::mt19937 random(7); // NOLINT: the same every time
    std::uniform_real_distribution<double> across(0, 400);
    std::uniform_real_distribution<double> down(0, 300);
    for (int i = 0; i < 12; ++i)
        canvas.line({{across(random), down(random)}, {across(random), down(random)}}, {});
    int placed = 0;
    int refused = 0;
    for (int i = 0; i < 60; ++i) {
        const Wish wish{.lines = {{"some words", {11, false, Ink::Line}}, {"more", {14, true, {}}}},
                        .about = {across(random), down(random), 5, 5},
                        .within = canvas.area(),
                        .gap = 2,
                        .reach = 60};
        (place(canvas, wish) ? placed : refused) += 1;
    }
    CHECK(placed > 5);
    CHECK(refused > 5); // it is full by then
    CHECK(legible::findFaults(canvas.take()).empty());
}

TEST_CASE("a line from a text to its thing crosses no other thing", "[drawing]") {
    Canvas canvas({300, 60, Paper::Light});
    canvas.begin("test");
    const Box other{60, 0, 30, 60};
    canvas.protect(other);
    canvas.reserve({20, 0, 120, 60}); // no room beside it
    const Wish wish{.lines = {{"far", {11, false, Ink::Line}}},
                    .about = {0, 0, 15, 60},
                    .within = canvas.area(),
                    .gap = 2,
                    .reach = 250};
    CHECK_FALSE(place(canvas, wish));
    Canvas open({300, 60, Paper::Light});
    open.begin("test");
    for (int x = 20; x < 140; x += 10) // lines may be crossed
        open.line({{static_cast<double>(x), 0}, {static_cast<double>(x), 60}}, {});
    CHECK(place(open, wish));
}

TEST_CASE("a cable's way keeps out of parts and leaves by its terminal's side", "[drawing]") {
    Router router({0, 0, 400, 300}, 6);
    const Box wall{180, 40, 40, 220};
    router.block(wall, 10);
    const std::vector<Point> line = router.find({{40, 150}, {1, 0}, 20}, {{360, 157}, {-1, 0}, 20});
    REQUIRE(line.size() >= 2);
    CHECK(line.front() == Point{40, 150});
    CHECK(line.back() == Point{360, 157});
    CHECK(isUpright(line));
    CHECK(line[1].y == line[0].y);
    CHECK(line[1].x >= 40 + 20 - 6);
    for (std::size_t i = 1; i < line.size(); ++i)
        CHECK_FALSE(touches(line[i - 1], line[i], 0, wall.grown(-1)));
    CHECK(countBends(line) <= 6);
}

TEST_CASE("ends that are nearly in line are joined with one step between them", "[drawing]") {
    const Router router({0, 0, 400, 300}, 6);
    const std::vector<Point> line = router.find({{40, 150}, {1, 0}, 20}, {{360, 152}, {-1, 0}, 20});
    CHECK(isUpright(line));
    CHECK(countBends(line) == 2);
    CHECK(line[1].x > 100); // not at the terminal
    CHECK(line[1].x < 300);
}

TEST_CASE("a way to a place beside the terminal still leaves by its side", "[drawing]") {
    const Router router({0, 0, 400, 300}, 6);
    const std::vector<Point> line = router.find({{100, 100}, {1, 0}, 20}, {{90, 200}, {0, -1}, 20});
    CHECK(isUpright(line));
    CHECK(line[1].y == 100);
    CHECK(line[1].x > 110);
}

TEST_CASE("every text of a drawing is escaped in SVG", "[drawing]") {
    const std::string svg = writeSvg(withLabel("<script>&\"\x01\xff 12 V"));
    CHECK_THAT(svg, !Contains("<script"));
    CHECK_THAT(svg, Contains("&lt;script&gt;&amp;&quot;"));
    CHECK(svg.find('\x01') == std::string::npos);
    CHECK(svg.find('\xff') == std::string::npos);
    CHECK_THAT(svg, Contains("\xef\xbf\xbd")); // what XML cannot hold
}

TEST_CASE("numbers in SVG do not depend on a locale", "[drawing]") {
    const std::string plain = writeSvg(withNumbers());
    CHECK_THAT(plain, Contains("1.25,2.5 1234.57,3"));
    CHECK_THAT(plain, Contains("stroke-dasharray=\"1.5 2.25\""));
    const std::locale before = std::locale::global(std::locale(std::locale(), new CommaPoint));
    const std::string here = std::setlocale(LC_ALL, nullptr);
    for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8"})
        if (std::setlocale(LC_ALL, name) != nullptr)
            break;
    const std::string other = writeSvg(withNumbers());
    std::setlocale(LC_ALL, here.c_str());
    std::locale::global(before);
    CHECK(other == plain);
}

TEST_CASE("a PNG has the size of its drawing", "[drawing]") {
    const std::string png = writePng(withNumbers());
    REQUIRE(png.size() > 24);
    CHECK(png.substr(1, 3) == "PNG");
    CHECK(png.substr(16, 8) == std::string("\0\0\0\xc8\0\0\0\x64", 8));
}

TEST_CASE("contrast is that of WCAG 2.2", "[drawing]") {
    CHECK_THAT(contrast({0, 0, 0}, {255, 255, 255}), WithinAbs(21, 1e-9));
    CHECK_THAT(contrast({255, 255, 255}, {255, 255, 255}), WithinAbs(1, 1e-9));
    // The lightest grey that passes 4.5:1 on white, and the next that fails.
    CHECK(contrast({118, 118, 118}, {255, 255, 255}) >= 4.5);
    CHECK(contrast({119, 119, 119}, {255, 255, 255}) < 4.5);
}

TEST_CASE("colours that may meet can be told apart on both papers", "[drawing]") {
    const Paper paper = GENERATE(Paper::Light, Paper::Dark);
    const auto between = [&](Ink one, Ink other) {
        return contrast(colourOf(one, paper), colourOf(other, paper));
    };
    for (const Ink ground : {Ink::Desk, Ink::Sheet, Ink::Spare})
        for (const Ink text : {Ink::Line, Ink::Soft, Ink::Warning}) {
            CAPTURE(paper, ground, text);
            CHECK(between(text, ground) >= 7);
        }
    // Lines and fills that carry a meaning: 3:1, WCAG 2.2 criterion 1.4.11.
    for (const Ink ground : {Ink::Sheet, Ink::Desk})
        for (const Ink mark : {Ink::Fill, Ink::Plus, Ink::Faint}) {
            CAPTURE(paper, ground, mark);
            CHECK(between(mark, ground) >= 3);
        }
}

TEST_CASE("a capital is as high as the room's measure takes it to be", "[drawing]") {
    FT_Library library = nullptr;
    REQUIRE(FT_Init_FreeType(&library) == 0);
    FT_Face face = nullptr;
    REQUIRE(FT_New_Face(library, fontFile(false).c_str(), 0, &face) == 0);
    REQUIRE(FT_Load_Char(face, 'H', FT_LOAD_NO_SCALE) == 0);
    const double height = static_cast<double>(face->glyph->metrics.height) / face->units_per_EM;
    CHECK_THAT(height, WithinAbs(font_capital, 0.002));
    FT_Done_Face(face);
    FT_Done_FreeType(library);
}

TEST_CASE("texts are measured with the real font", "[drawing]") {
    CHECK(textWidth("", 12, false) == 0);
    CHECK_THAT(textWidth("HH", 24, false), WithinAbs(4 * textWidth("H", 12, false), 1e-9));
    CHECK(textWidth("iii", 12, false) < textWidth("mmm", 12, false));
    CHECK(textWidth("plus", 12, true) > textWidth("plus", 12, false));
}

TEST_CASE("wrapping keeps every word and never exceeds the width", "[drawing]") {
    const std::string text =
        "At 1.35\u00a0s its low-voltage cut-out of 10.50\u00a0V ended the try.";
    std::string joined;
    for (const TextLine& line : wrapped(text, {12, false, Ink::Line}, 110)) {
        CHECK(textWidth(line.text, 12, false) <= 110);
        joined += (joined.empty() ? "" : " ") + line.text;
    }
    CHECK(joined == text);
    CHECK_THAT(shortened("a long name of a cable", 12, false, 60), Catch::EndsWith("…"));
    CHECK(textWidth(shortened("a long name of a cable", 12, false, 60), 12, false) <= 60);
}

TEST_CASE("the largest avoidable loss is named, not the largest", "[drawing]") {
    using enum PortionKind;
    const auto named = [](const std::vector<Portion>& portions, const std::string& opening = "") {
        const Portion* culprit = findCulprit({.opening = opening}, portions);
        return culprit == nullptr ? "" : culprit->id;
    };
    const Portion cable{.kind = Cable, .id = "cable", .volts = 1.0, .avoidable_v = 0.1};
    const Portion crimp{.kind = Joint, .id = "crimp", .volts = 0.5, .avoidable_v = 0.4};
    const Portion sound{.kind = Cable, .id = "sound", .volts = 2.0};
    const Portion battery{.kind = PortionKind::Battery, .id = "battery", .volts = 3.0};
    const Portion rest{.kind = Rest, .volts = 1.0, .avoidable_v = 0.9};
    CHECK(named({sound, cable, crimp, rest}) == "crimp");
    CHECK(named({battery, cable, sound}) == "cable");
    CHECK(named({battery, sound}) == "sound");
    CHECK(named({battery, rest}).empty());
    CHECK(named({sound, cable, crimp}, "sound") == "sound"); // a fuse that opens is the cause
}

TEST_CASE("the check for legibility finds what it is there for", "[drawing]") {
    const auto drawn = [](auto&& add) {
        Drawing drawing = withLabel("text");
        add(drawing.groups.back().items);
        return legible::findFaults(drawing);
    };
    using Items = std::vector<std::variant<Shape, Label>>;
    const auto nothing = [](Items& /*unused*/) {};
    const auto label = [](const Box& box) {
        return [=](Items& items) { items.emplace_back(Label{"more", box, 20, 12, false, {}}); };
    };
    const auto line = [](Point from, Point to) {
        return [=](Items& items) {
            items.emplace_back(Shape{{from, to}, false, {}, Ink::Line, 1, {}});
        };
    };
    const auto cover = [](Items& items) {
        items.emplace_back(
            Shape{{{0, 0}, {90, 0}, {90, 90}, {0, 90}}, true, Ink::Sheet, {}, 0, {}});
    };
    CHECK(drawn(nothing).empty());
    CHECK(drawn(label({70, 10, 30, 12})).empty());
    CHECK(drawn(label({40, 18, 30, 12})).size() == 1);
    CHECK(drawn(label({180, 10, 30, 12})).size() == 1);
    CHECK(drawn(line({0, 30}, {200, 30})).empty());
    CHECK(drawn(line({0, 15}, {200, 16})).size() == 1);
    CHECK(drawn(line({20, 12}, {21, 13})).size() == 1);
    CHECK(drawn(cover).size() == 1);
}
