// SPDX-License-Identifier: MIT
// Numbers, nearest names, control characters; errors as text; files inside the program.
#include "ebbline/embedded.h"
#include "ebbline/error.h"
#include "ebbline/text.h"

#include <catch2/catch.hpp>

#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <random>
#include <set>

using namespace ebbline;

namespace {

std::string described(const std::vector<Problem>& problems) {
    return SceneError(problems).what();
}

/// Text of a problem at a place of one line.
std::string described(int column, const std::string& source_line) {
    return described({{.file = "galley.toml",
                       .line = 7,
                       .column = column,
                       .message = "not this",
                       .source_line = source_line}});
}

std::string caretLine(std::size_t column) {
    return "      | " + std::string(column - 1, ' ') + "^\n";
}

const std::array<std::string, 5> names{"charge_pct", "capacity_ah", "age_pct", "title", "name"};

} // namespace

TEST_CASE("a number is written as its shortest text, with a point and no suffix", "[base]") {
    CHECK(text::number(0.1) == "0.1");
    CHECK(text::number(12) == "12");
    CHECK(text::number(-3.5) == "-3.5");
    CHECK(text::number(1e6) == "1e+06");
    CHECK(text::number(1e-9) == "1e-09");
    CHECK(text::number(0.1 + 0.2) == "0.30000000000000004");
}

TEST_CASE("a number reads back as the same double", "[base]") {
    std::mt19937_64 random(20251125);
    for (int i = 0; i < 2000; ++i) {
        const auto value = std::bit_cast<double>(random());
        if (std::isfinite(value)) {
            const std::string written = text::number(value);
            double read = 0;
            const auto end = written.data() + written.size();
            REQUIRE(std::from_chars(written.data(), end, read).ptr == end);
            REQUIRE(std::bit_cast<std::uint64_t>(read) == std::bit_cast<std::uint64_t>(value));
        }
    }
}

TEST_CASE("a figure for people has its decimals, or a dash", "[base]") {
    CHECK(text::fixed(10.4567, 2) == "10.46");
    CHECK(text::fixed(10.4567, 0) == "10");
    CHECK(text::fixed(-0.25, 1) == "-0.2");
    CHECK(text::fixed(std::nullopt, 2) == "-");
}

TEST_CASE("the nearest name is one that can be meant", "[base]") {
    CHECK(text::findNearest("charge_pc", names) == "charge_pct");
    CHECK(text::findNearest("chrage_pct", names) == "charge_pct");
    CHECK(text::findNearest("capacityah", names) == "capacity_ah");
    CHECK(text::findNearest("titel", names) == "title"); // two letters exchanged are one slip
    CHECK(text::findNearest("nane", names) == "name");
    CHECK(text::findNearest("age_pct", names) == "age_pct");
}

TEST_CASE("a name without its unit is found by how it begins", "[base]") {
    CHECK(text::findNearest("capacity", names) == "capacity_ah");
    CHECK(text::findNearest("char", names) == "charge_pct");
    CHECK(text::findNearest("ca", names) == std::nullopt); // too short to say anything
}

TEST_CASE("no name is suggested where none is near", "[base]") {
    CHECK(text::findNearest("colour", names) == std::nullopt);
    CHECK(text::findNearest("", names) == std::nullopt);
    CHECK(text::findNearest("title", {}) == std::nullopt);
}

TEST_CASE("control characters are made visible, all else is left alone", "[base]") {
    CHECK(text::escapeControls("Küche, 厨房, 🛥") == "Küche, 厨房, 🛥");
    CHECK(text::escapeControls("\x1b[2J\n\t\x7f") == "\\x1B[2J\\x0A\\x09\\x7F");
    CHECK(text::escapeControls(std::string_view("a\0b", 3)) == "a\\x00b");
    CHECK(text::escapeControls("\xc2\x9b!") == "\\xC2\\x9B!"); // C1, eight-bit CSI
    CHECK(text::escapeControls("\xc2\xa0") == "\xc2\xa0");     // the first that is none
}

TEST_CASE("broken UTF-8 is made visible", "[base]") {
    CHECK(text::escapeControls("a\xff") == "a\\xFF");
    CHECK(text::escapeControls("\xe2\x82") == "\\xE2\\x82");                   // cut short
    CHECK(text::escapeControls("\xc0\xaf") == "\\xC0\\xAF");                   // overlong
    CHECK(text::escapeControls("\xed\xa0\x80") == "\\xED\\xA0\\x80");          // surrogate
    CHECK(text::escapeControls("\xf4\x90\x80\x80") == "\\xF4\\x90\\x80\\x80"); // too high
    CHECK(text::escapeControls("\xc3(") == "\\xC3(");
}

TEST_CASE("width counts characters, not bytes", "[base]") {
    CHECK(text::width("") == 0);
    CHECK(text::width("12 V") == 4);
    CHECK(text::width("Küche") == 5);
    CHECK(text::width("厨房") == 2);
}

TEST_CASE("an error shows place, message, line and caret", "[base]") {
    CHECK(described(5, "abc = 3") == "galley.toml:7:5: not this\n    7 | abc = 3\n" + caretLine(5));
    CHECK(described(1, "x") == "galley.toml:7:1: not this\n    7 | x\n" + caretLine(1));
}

TEST_CASE("the caret stands below its character whatever stands before it", "[base]") {
    // A tab is shown as one space, a control character as \xNN, a wide letter as itself.
    CHECK(described(4, "\tab = 3") ==
          "galley.toml:7:4: not this\n    7 |  ab = 3\n" + caretLine(4));
    CHECK(described(3, "ö\x1b= 3") ==
          "galley.toml:7:3: not this\n    7 | ö\\x1B= 3\n" + caretLine(6));
    // Behind the end of the line.
    CHECK(described(9, "abc") == "galley.toml:7:9: not this\n    7 | abc\n" + caretLine(4));
}

TEST_CASE("of a long line only what is near the caret is shown", "[base]") {
    const std::string line = std::string(500, 'a') + "!" + std::string(500, 'b');
    const std::string head = "..." + std::string(70, 'a');
    CHECK(described(501, line) == "galley.toml:7:501: not this\n    7 | " + head + "!" +
                                      std::string(49, 'b') + "...\n" + caretLine(74));
    CHECK(described(1, line) ==
          "galley.toml:7:1: not this\n    7 | " + std::string(120, 'a') + "...\n" + caretLine(1));
}

TEST_CASE("an error without a place is only its message", "[base]") {
    CHECK(described({{.message = "nothing is called 'hose'"}}) == "nothing is called 'hose'\n");
    CHECK(described({{.file = "models", .message = "no 'fuse.lib'"}}) == "models: no 'fuse.lib'\n");
}

TEST_CASE("several problems follow one another, names of files made visible", "[base]") {
    const std::vector<Problem> problems{
        {.file = "a\nb", .line = 1, .column = 2, .message = "one"},
        {.file = "a\nb", .line = 3, .column = 4, .message = "two\x1b"}};
    CHECK(described(problems) == "a\\x0Ab:1:2: one\na\\x0Ab:3:4: two\\x1B\n");
    CHECK(SceneError(problems).problems() == problems);
}

TEST_CASE("the program holds its models, its first scene and the simulator's start-up", "[base]") {
    std::set<std::string_view> held;
    for (const embedded::File& file : embedded::all()) {
        CHECK(held.insert(file.name).second); // find() could not tell two apart
        CHECK_FALSE(file.text.empty());
        CHECK(embedded::find(file.name) == file.text);
    }
    for (const char* name : {"first-scene.toml",
                             "spinit",
                             "conductors.toml",
                             "joints.toml",
                             "fuses.toml",
                             "batteries.toml",
                             "controllers.toml",
                             "battery.lib",
                             "controller.lib"})
        CHECK(held.contains(name));
}
